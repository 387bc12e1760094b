package rig

import (
	"fmt"
	"slices"
	"strconv"

	"linemap/internal/unit"
)

func (c *checks) pump(p Pump) {
	c.at = "pump."
	c.positive(float64(p.Flow), "flow", both(unit.System.Flow, p.Flow))
	c.positive(float64(p.Rated), "rated", both(unit.System.Pressure, p.Rated))
	c.positive(float64(p.Unloader), "unloader", both(unit.System.Pressure, p.Unloader))
	c.must(!(p.Unloader > p.Rated), "unloader", both(unit.System.Pressure, p.Unloader),
		"at most the rated "+both(unit.System.Pressure, p.Rated))
}

func (c *checks) tank(t Tank) {
	c.at = "tank."
	c.positive(float64(t.Volume), "volume", both(unit.System.Volume, t.Volume))
	c.atLeast0(float64(t.Start), "start", both(unit.System.Volume, t.Start))
	c.atLeast0(float64(t.Stop), "stop", both(unit.System.Volume, t.Stop))
	c.must(!(t.Start > t.Volume), "start", both(unit.System.Volume, t.Start),
		"at most the tank's "+both(unit.System.Volume, t.Volume))
	c.must(!(t.Stop >= t.Start), "stop", both(unit.System.Volume, t.Stop),
		"below the start level, "+both(unit.System.Volume, t.Start))
	c.positive(float64(t.Drain), "drain", both(unit.System.Flow, t.Drain))
}

// around checks what belongs to the rig as a whole.
func (c *checks) around(r *Rig) {
	c.at = "supply."
	c.atLeast0(float64(r.Supply.Length), "length", both(unit.System.Length, r.Supply.Length))
	c.atLeast0(float64(r.Supply.MaxFlow), "max_flow", both(unit.System.Flow, r.Supply.MaxFlow))
	c.at = "plumbing."
	c.atLeast0(float64(r.Plumbing.Length), "length", both(unit.System.Length, r.Plumbing.Length))
	if r.Plumbing.Length > 0 {
		c.positive(float64(r.Plumbing.Bore), "bore", both(unit.System.Bore, r.Plumbing.Bore))
	}
	c.at = ""
	c.must(r.Water >= 0 && r.Water <= 60, "water_temperature", fmt.Sprintf("%g C", float64(r.Water)),
		"from 0 to 60 C")
	c.must(len(r.Hoses) > 0, "hoses", "none", "one or more")
	c.must(len(r.Nozzles) > 0, "nozzles", "none", "one or more")
}

func (c *checks) hoses(hoses []Hose) {
	seen := map[string]bool{}
	for i := range hoses {
		h := &hoses[i]
		c.at, c.of = entry("hoses", i, h.ID), h.Name
		c.id(h.ID, seen)
		bore, length := both(unit.System.Bore, h.Bore), both(unit.System.Length, h.Length)
		c.positive(float64(h.Bore), "bore", bore)
		c.positive(float64(h.Length), "length", length)
		c.must(h.Roughness >= 0 && !(h.Roughness > roughest*h.Bore), "roughness",
			fmt.Sprintf("%g mm", h.Roughness.Millimetres()), "from 0 to a twentieth of the bore, "+bore)
		reserve := both(unit.System.Length, h.Reserve)
		c.atLeast0(float64(h.Reserve), "reserve", reserve)
		c.must(!(h.Reserve >= h.Length) || !(h.Length > 0), "reserve", reserve, "below the hose's "+length)
		c.positive(float64(h.Working), "working_pressure", both(unit.System.Pressure, h.Working))
		c.positive(float64(h.Mass), "mass", linear(h.Mass))
		c.must(h.MassSpread >= 0 && h.MassSpread < 1, "mass_spread", number(h.MassSpread),
			"0 or more and below 1")
		c.pipes(h.MinPipe, h.MaxPipe)
		c.must(!(h.Bore >= h.MinPipe.Nominal()), "min_pipe", h.MinPipe.In(unit.US), "above the bore, "+bore)
		c.atLeast0(h.Bends, "bends", number(h.Bends))
		c.angle(h.Sharpest, 180, "sharpest")
		c.angle(h.BranchTurn, 180, "branch_turn")
		c.should(!(h.BranchTurn > h.Sharpest), "branch_turn", degrees(h.BranchTurn),
			"at most the sharpest turn, "+degrees(h.Sharpest))
	}
	c.of = ""
}

func (c *checks) nozzles(nozzles []Nozzle, hoses []Hose) {
	seen := map[string]bool{}
	for i := range nozzles {
		n := &nozzles[i]
		at := entry("nozzles", i, n.ID)
		c.at, c.of = at, n.Name
		c.id(n.ID, seen)
		c.must(len(n.Purposes) > 0, "purposes", "none", "one or more")
		for _, p := range n.Purposes {
			c.must(slices.Contains(Purposes(), p), "purposes", strconv.Quote(string(p)),
				fmt.Sprintf("one of %v", Purposes()))
		}
		c.must(len(n.Orifices) > 0, "orifices", "none", "one or more")
		for k, o := range n.Orifices {
			c.at = fmt.Sprintf("%sorifices[%d].", at, k)
			c.must(o.Count > 0, "count", strconv.Itoa(o.Count), "above 0")
			c.positive(float64(o.Diameter), "diameter", fmt.Sprintf("%g mm", o.Diameter.Millimetres()))
			c.angle(o.Angle, 90, "angle")
			c.must(o.Facing == Rear || o.Facing == Front, "facing", strconv.Quote(string(o.Facing)),
				"rear or front")
		}
		c.at = at
		c.must(n.rearArea() > 0 || len(n.Orifices) == 0, "orifices", "no forward thrust",
			"more pull from the rear jets than the front jets push back")
		c.must(n.Discharge > 0 && n.Discharge <= 1, "discharge", number(n.Discharge), "above 0 and at most 1")
		c.atLeast0(float64(n.Mass), "mass", number(float64(n.Mass))+" kg")
		c.pipes(n.MinPipe, n.MaxPipe)
		c.should(len(hoses) == 0 || slices.ContainsFunc(hoses, func(h Hose) bool {
			return h.MinPipe <= n.MaxPipe && n.MinPipe <= h.MaxPipe
		}), "min_pipe", n.MinPipe.In(unit.US)+" to "+n.MaxPipe.In(unit.US), "a range that some hose shares")
	}
	c.of = ""
}

func (c *checks) crew(w Crew) {
	c.at = "crew."
	c.must(w.People >= 1, "people", strconv.Itoa(w.People), "1 or more")
	for _, m := range []struct {
		field   string
		minutes float64
	}{
		{"set_up_minutes", w.SetUp},
		{"pack_up_minutes", w.PackUp},
		{"move_minutes", w.Move},
		{"open_minutes", w.Open},
		{"run_start_minutes", w.RunStart},
		{"nozzle_change_minutes", w.NozzleChange},
		{"hose_change_minutes", w.HoseChange},
	} {
		c.must(m.minutes >= 0 && m.minutes <= Longest.Minutes(), m.field, number(m.minutes)+" min",
			"0 or more, and less than "+Longest.String())
	}
	for _, s := range []struct {
		field string
		speed unit.Speed
	}{
		{"tow_speed", w.TowSpeed},
		{"lay_speed", w.Lay},
		{"travel_speed", w.Travel},
		{"forward_speed", w.Forward},
		{"back_speed", w.Back},
	} {
		c.positive(float64(s.speed), s.field, number(s.speed.MetresPerMinute())+" m/min")
	}
	c.positive(float64(w.Stroke), "stroke", both(unit.System.Length, w.Stroke))
	c.atLeast0(w.Downstream, "downstream_extra", number(w.Downstream))
	c.atLeast0(w.Shift, "shift_minutes", number(w.Shift))
}
