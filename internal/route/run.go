package route

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// pathOf lists the places of a path from the access to place end.
func (c *catalogue) pathOf(end int) []int {
	var out []int
	for i := end; i >= 0; i = c.places[i].prev {
		out = append(out, i)
	}
	slices.Reverse(out)
	return out
}

// describe writes out a run in full for the plan.
func (c *catalogue) describe(number, column, spot int, opens bool) Run {
	col := &c.columns[column]
	end := &c.places[col.end]
	path := c.pathOf(col.end)
	lay := c.layTo(end.access, spot)
	run := Run{
		Number: number, Access: c.site.Network.Nodes[c.access[end.access].node].ID, Opens: opens,
		Direction: Upstream, Lay: lay, Entry: lay + c.access[end.access].riser,
		End: lay + end.length, Bends: end.turns.QuarterBends(),
	}
	if end.down {
		run.Direction = Downstream
	}
	cleaned := map[int]bool{}
	for _, p := range c.chain(column) {
		cleaned[p] = true
	}
	at := run.Entry
	for _, i := range path {
		p := c.places[i].pipe
		leg := Leg{Pipe: c.site.Network.Pipes[p].ID, From: at, To: lay + c.places[i].length, Cleaned: cleaned[p]}
		run.Path = append(run.Path, leg)
		at = leg.To
	}
	run.Fittings = c.fittings(path, lay)
	passes, _ := c.passesOf(col)
	for i, p := range passes {
		run.Passes = append(run.Passes, c.describePass(p, path, cleaned, lay))
		run.Minutes += p.time.duration()
		run.Water += run.Passes[i].Water
		if changesNozzle(passes, i) {
			run.Minutes += toTicks(minutes(c.site.Rig.Crew.NozzleChange)).duration()
		}
	}
	if len(run.Passes) > 0 {
		steps := c.stepsAlong(path)
		hose := &c.site.Rig.Hoses[end.hose]
		for i, reach := range []rig.Case{rig.LowReach, rig.LikelyReach, rig.HighReach} {
			run.Reach[i] = run.Entry + rig.ReachAlong(steps, hose, c.water, run.Passes[0].Thrust, reach)
		}
	}
	run.Flags = c.flags(&run, path, cleaned)
	return run
}

// turnInto is the passage from the place before into place i.
func (c *catalogue) turnInto(i int) network.Passage {
	pl := &c.places[i]
	if pl.prev < 0 {
		return c.entry(pl.access, pl.pipe)
	}
	return c.g.Passage(c.places[pl.prev].pipe, pl.pipe)
}

// stepsAlong lays out a path as the hose meets it, from the first pipe on.
func (c *catalogue) stepsAlong(path []int) []rig.Step {
	var out []rig.Step
	for _, i := range path {
		out = append(out, c.steps(c.places[i].way, c.places[i].pipe, c.turnInto(i).Turn)...)
	}
	return out
}

func (c *catalogue) describePass(p plannedPass, path []int, cleaned map[int]bool, lay unit.Length) Pass {
	end := &c.places[p.end]
	op := c.ops.at(end.hose, p.nozzle, end.ceiling)
	hose := &c.site.Rig.Hoses[end.hose]
	out := path[:slices.Index(path, p.end)+1]
	pass := Pass{
		Kind: passName(p.kind), Nozzle: c.site.Rig.Nozzles[p.nozzle].ID,
		Operating: op.Operating, Setting: op.setting, Drag: end.drag,
		Peak: rig.PeakPull(c.stepsAlong(out), hose, c.water, op.Thrust, rig.LowReach),
		End:  lay + end.length, Minutes: p.time.duration(), Water: flowFor(op.Flow, p.time),
	}
	for _, i := range out {
		pipe := c.places[i].pipe
		if !cleaned[pipe] || !c.pipes[pipe].needs[p.kind] {
			continue
		}
		row, pulls := c.passRow(pipe, p.kind)
		pass.Pulls = max(pass.Pulls, pulls)
		if row.Strokes {
			pass.Strokes += c.site.Rig.Crew.Strokes(c.pipes[pipe].length)
		}
	}
	return pass
}

// passRow is the table's row for a pass of a pipe, and its pulls.
func (m *model) passRow(pipe, k int) (row site.PassRow, pulls int) {
	for _, r := range m.tables.Deposits[m.deposits[m.pipes[pipe].deposit]].Passes {
		if n := r.Pulls[m.severity(pipe)]; r.Kind == passName(k) && n > 0 {
			return r, n
		}
	}
	return site.PassRow{}, 0
}

func (m *model) severity(pipe int) network.Severity {
	if s := m.site.Network.Pipes[pipe].Severity; s != "" {
		return s
	}
	return network.Moderate
}

// fittings lists all that the hose meets on a path, by reading.
func (c *catalogue) fittings(path []int, lay unit.Length) []Fitting {
	var out []Fitting
	at := lay + c.access[c.places[path[0]].access].riser
	for _, i := range path {
		pl := &c.places[i]
		id := c.site.Network.Pipes[pl.pipe].ID
		node := c.g.Down[pl.pipe]
		if pl.down {
			node = c.g.Up[pl.pipe]
		}
		if pass := c.turnInto(i); pass.What != "" && (pl.prev >= 0 || pass.Turn > 0) {
			out = append(out, Fitting{
				At: at, Pipe: id, What: pass.What, Turn: pass.Turn, Side: pass.Side,
				Confirm: pass.Branch, Node: c.site.Network.Nodes[node].ID,
			})
		}
		corners := c.pipes[pl.pipe].corners
		for n := range corners {
			corner, along := c.cornerAhead(pl.down, pl.pipe, corners, n)
			side := corner.Side
			if !c.entersAtFrom(pl.down, pl.pipe) {
				side = otherSide(side)
			}
			out = append(out, Fitting{
				At: at + along, Pipe: id, What: network.BendName(corner.Turn()), Turn: corner.Turn(), Side: side,
			})
		}
		at = lay + pl.length
	}
	return out
}

func otherSide(side string) string {
	switch side {
	case "left":
		return "right"
	case "right":
		return "left"
	}
	return side
}
