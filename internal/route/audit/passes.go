package audit

import (
	"fmt"
	"slices"
	"time"

	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// passes checks the passes of a run against what its cleaned pipes ask for.
func (c *checker) passes(r *run) {
	duties := c.duties(&r.track, r.cleaned)
	var asked, made []site.PassKind
	for _, d := range duties {
		asked = append(asked, d.kind)
	}
	for _, p := range r.Passes {
		made = append(made, p.Kind)
	}
	if !slices.Equal(asked, made) {
		c.differ(RulePasses, r.name, "the passes that the cleaned pipes ask for", made, asked)
		return
	}
	drags := c.drags(&r.track, r.hose)
	for i := range duties {
		c.pass(r, &duties[i], &r.Passes[i], drags)
	}
	c.totals(r)
	c.reach(r)
}

// pass checks one pass.
func (c *checker) pass(r *run, d *duty, p *route.Pass, drags []unit.Force) {
	place := fmt.Sprintf("%s, %s pass", r.name, p.Kind)
	far := r.hops[d.far]
	c.sameLength(RuleReadings, place, "the pass turns at the far end of the last pipe that asks for it",
		p.End, unit.Length(c.entry(r))+far.far)
	c.counts(r, d, p, place)
	c.sameTime(RuleMinutes, place, "time", p.Minutes, c.takes(&r.track, d))
	c.sameVolume(RuleWater, place, "water", p.Water, drawn(p.Flow, p.Minutes))

	nozzle := c.nozzle(p.Nozzle)
	if nozzle == nil {
		c.add(RulePlan, place, "there is no nozzle %q", p.Nozzle)
		return
	}
	if d.worstPlace(nozzle) < 0 {
		c.add(RuleNozzle, place, "nozzle %s does not serve everything that asks for the pass", nozzle.ID)
		return
	}
	if !c.fits(&r.track, d.far, nozzle) {
		c.add(RuleSize, place, "nozzle %s does not fit the opening or a pipe on the way", nozzle.ID)
		return
	}
	c.operating(r, d, p, nozzle, place)
	c.pull(r, d, p, drags, place)
	c.preferred(r, d, p, nozzle, drags, place)
	if !c.holds(c.inflow(r.spot), p.Flow, p.Minutes) {
		c.add(RuleWater, place, "a full tank does not hold the water of the pass")
	}
}

// operating solves the operating point anew.
func (c *checker) operating(r *run, d *duty, p *route.Pass, nozzle *rig.Nozzle, place string) {
	op := c.operate(r.hose, nozzle, c.ceiling(&r.track, d.far))
	if !op.ok {
		c.add(RuleOperating, place, "pump, hose and nozzle have no operating point")
		return
	}
	if !alike(1e6*float64(p.Flow), 1e6*float64(op.Flow)) {
		c.differ(RuleOperating, place, "flow", unit.Metric.Flow(p.Flow), unit.Metric.Flow(op.Flow))
	}
	c.samePressure(RuleOperating, place, "pressure at the pump", p.Pump, op.Pump)
	c.samePressure(RuleOperating, place, "pressure at the nozzle", p.Operating.Nozzle, op.Operating.Nozzle)
	c.samePressure(RuleOperating, place, "loss", p.Loss, op.Loss)
	c.samePressure(RuleOperating, place, "setting of the unloader", p.Setting, op.setting)
	c.sameForce(RuleOperating, place, "thrust", p.Thrust, op.Thrust)
}

// pull checks that the nozzle pulls its hose all the way, and the forces told.
func (c *checker) pull(r *run, d *duty, p *route.Pass, drags []unit.Force, place string) {
	if !beats(p.Thrust, drags[:d.far+1], lenient) {
		c.differ(RulePull, place, "the thrust does not beat the drag",
			unit.Metric.Force(p.Thrust), unit.Metric.Force(slices.Max(drags[:d.far+1])))
	}
	c.sameForce(RulePull, place, "drag at the far end in the low case", p.Drag, drags[d.far])
	peak := rig.PeakPull(r.stepsTo(d.far), r.hose, c.water, p.Thrust, rig.LowReach)
	c.sameForce(RulePull, place, "largest pull at the reel", p.Peak, peak)
}

// preferred checks that no better nozzle would do. One whose water the tank
// does not hold will not.
func (c *checker) preferred(r *run, d *duty, p *route.Pass, nozzle *rig.Nozzle, drags []unit.Force, place string) {
	for _, n := range c.choices(&r.track, d, r.hose, drags, strict) {
		flow := c.operate(r.hose, n, c.ceiling(&r.track, d.far)).Flow
		if c.better(&r.track, d, r.hose, n, nozzle) && c.holds(c.inflow(r.spot), flow, p.Minutes) {
			c.differ(RuleNozzle, place, "a better nozzle would do", nozzle.ID, n.ID)
			return
		}
	}
}

// counts checks the strokes and the pulls told to the crew.
func (c *checker) counts(r *run, d *duty, p *route.Pass, place string) {
	// Strokes may be counted pipe by pipe or over all that is stroked.
	var stroked unit.Length
	most, each := 0, 0
	for i, row := range d.work {
		m := &c.pipes[r.pipes[i]]
		most = max(most, pulls(row, m.Pipe))
		if row.Strokes {
			stroked += m.length
			each += c.site.Rig.Crew.Strokes(m.length)
		}
	}
	if all := c.site.Rig.Crew.Strokes(stroked); p.Strokes < all || p.Strokes > each {
		c.differ(RuleStrokes, place, "strokes", p.Strokes, fmt.Sprintf("%d to %d", all, each))
	}
	if p.Pulls != most {
		c.differ(RuleStrokes, place, "most working pulls", p.Pulls, most)
	}
}

// totals checks the sums of a run.
func (c *checker) totals(r *run) {
	var minutes rounded
	var water unit.Volume
	for i, p := range r.Passes {
		if i > 0 && p.Nozzle != r.Passes[i-1].Nozzle {
			minutes = minutes.plus(round(60 * c.site.Rig.Crew.NozzleChange))
		}
		minutes = minutes.plus(exactly(p.Minutes))
		water += p.Water
	}
	c.sameTime(RuleMinutes, r.name, "passes with their nozzle changes", r.Minutes, minutes)
	c.sameVolume(RuleWater, r.name, "water of the passes", r.Water, water)
}

// reach checks where the hose would stall in the first pass.
func (c *checker) reach(r *run) {
	if len(r.Passes) == 0 {
		if r.Reach != [3]unit.Length{} {
			c.add(RuleReach, r.name, "a run without a pass has no reach")
		}
		return
	}
	steps := r.stepsTo(len(r.hops) - 1)
	entry := unit.Length(c.entry(r))
	for i, level := range []rig.Case{rig.LowReach, rig.LikelyReach, rig.HighReach} {
		want := min(r.length(), rig.ReachAlong(steps, r.hose, c.water, r.Passes[0].Thrust, level))
		c.sameLength(RuleReach, r.name, fmt.Sprintf("reading at which the hose stalls, case %d", i), r.Reach[i], entry+want)
	}
}

// drawn is the water that a flow takes over a time.
func drawn(q unit.Flow, d time.Duration) unit.Volume {
	return unit.Volume(float64(q) * d.Seconds())
}
