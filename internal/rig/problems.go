package rig

import (
	"fmt"
	"math"
	"strconv"

	"linemap/internal/unit"
)

// Problem is one figure of a rig that cannot be right.
type Problem struct {
	// Field is the way to the figure in the rig's file, by ids where there are
	// any: "hoses[half-inch].min_pipe".
	Field string
	// Of names the hose or nozzle for a reader, "" for the rig itself.
	Of string
	// Value is the figure found and Limit what it should be, with units.
	Value string
	Limit string
	// Stops says that no plan made with the rig can be trusted; the rest are
	// oddities.
	Stops bool
}

// String gives the problem on one line.
func (p Problem) String() string {
	name := p.Field
	if p.Of != "" {
		name += " " + strconv.Quote(p.Of)
	}
	return fmt.Sprintf("%s: %s, must be %s", name, p.Value, p.Limit)
}

// Problems lists what is wrong with the rig, in the order of its members: nil
// for a sound one.
func (r *Rig) Problems() []Problem {
	var c checks
	c.pump(r.Pump)
	c.tank(r.Tank)
	c.around(r)
	c.hoses(r.Hoses)
	c.nozzles(r.Nozzles, r.Hoses)
	c.crew(r.Crew)
	return c.found
}

// checks gathers problems; at and of are the member under inspection.
type checks struct {
	at, of string
	found  []Problem
}

// must notes a problem that stops a plan unless ok, should one that does not.
func (c *checks) must(ok bool, field, value, limit string) { c.note(ok, field, value, limit, true) }

func (c *checks) should(ok bool, field, value, limit string) { c.note(ok, field, value, limit, false) }

func (c *checks) note(ok bool, field, value, limit string, stops bool) {
	if !ok {
		c.found = append(c.found, Problem{c.at + field, c.of, value, limit, stops})
	}
}

// positive and atLeast0 hold only for finite figures.
func (c *checks) positive(v float64, field, value string) {
	c.must(positive(v), field, value, "above 0")
}

func (c *checks) atLeast0(v float64, field, value string) {
	c.must(v == 0 || positive(v), field, value, "0 or more")
}

// entry returns the way to the members of an entry of a list.
func entry(list string, i int, id string) string {
	if id == "" {
		id = strconv.Itoa(i)
	}
	return list + "[" + id + "]."
}

// id checks that an id is there and new.
func (c *checks) id(id string, seen map[string]bool) {
	c.must(id != "", "id", "none", "given")
	c.must(id == "" || !seen[id], "id", strconv.Quote(id), "given once only")
	seen[id] = true
}

// pipes checks a range of pipe sizes.
func (c *checks) pipes(least, most unit.Size) {
	c.must(least.Known(), "min_pipe", least.In(unit.US), "a nominal size")
	c.must(most.Known(), "max_pipe", most.In(unit.US), "a nominal size")
	c.must(!(most < least), "max_pipe", most.In(unit.US), "at least the smallest, "+least.In(unit.US))
}

// angle checks an angle from 0 to limit degrees.
func (c *checks) angle(a unit.Angle, limit float64, field string) {
	const slack = 1e-9 // degrees come back from radians a digit off
	c.must(a >= 0 && a.Degrees() <= limit+slack, field, degrees(a),
		fmt.Sprintf("from 0 to %g degrees", limit))
}

// both writes a figure in both systems of units.
func both[T any](in func(unit.System, T) string, v T) string {
	return in(unit.US, v) + " (" + in(unit.Metric, v) + ")"
}

func degrees(a unit.Angle) string { return number(a.Degrees()) + " degrees" }

func linear(m unit.LinearMass) string {
	return fmt.Sprintf("%.3f lb/ft (%.3f kg/m)", m.PoundsPerFoot(), float64(m))
}

// number writes a figure to at most four decimals.
func number(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Sprint(v)
	}
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}
