package export

import (
	"slices"
	"strconv"
	"strings"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// csvColumn is one column of the plan's table.
type csvColumn struct {
	name string
	cell func(*csvRow) string
}

// csvColumns are the columns of the plan's table in one system of units.
func csvColumns(sys unit.System) []csvColumn {
	q := csvUnits(sys)
	return []csvColumn{
		{"block", func(r *csvRow) string { return strconv.Itoa(r.order) }},
		{"spot", func(r *csvRow) string { return guarded(r.w.spotName(r.block.Spot)) }},
		{"hose", func(r *csvRow) string { return guarded(r.w.hoseName(r.block.Hose)) }},
		{"run", func(r *csvRow) string { return strconv.Itoa(r.run.Number) }},
		{"access", func(r *csvRow) string { return guarded(r.w.node(r.run.Access)) }},
		{"access_kind", (*csvRow).accessKind},
		{"room", func(r *csvRow) string { return guarded(r.access().Room) }},
		{"direction", func(r *csvRow) string { return string(r.run.Direction) }},
		{"lay_" + q.lengthName, func(r *csvRow) string { return q.length(r.run.Lay) }},
		{"entry_" + q.lengthName, func(r *csvRow) string { return q.length(r.run.Entry) }},
		{"end_" + q.lengthName, func(r *csvRow) string { return q.length(r.run.End) }},
		{"bends_quarter", func(r *csvRow) string { return figure(r.run.Bends, 2) }},
		{"pass", func(r *csvRow) string { return strconv.Itoa(r.index + 1) }},
		{"pass_kind", func(r *csvRow) string { return string(r.pass.Kind) }},
		{"nozzle", func(r *csvRow) string { return guarded(r.w.nozzleName(r.pass.Nozzle)) }},
		{"flow_" + q.flowName, func(r *csvRow) string { return q.flow(r.pass.Flow) }},
		{"unloader_" + q.pressureName, func(r *csvRow) string { return q.pressure(r.pass.Setting) }},
		{"at_nozzle_" + q.pressureName, func(r *csvRow) string { return q.pressure(r.pass.Operating.Nozzle) }},
		{"thrust_" + q.forceName, func(r *csvRow) string { return q.force(r.pass.Thrust) }},
		{"drag_" + q.forceName, func(r *csvRow) string { return q.force(r.pass.Drag) }},
		{"peak_pull_" + q.forceName, func(r *csvRow) string { return q.force(r.pass.Peak) }},
		{"turn_back_" + q.lengthName, func(r *csvRow) string { return q.length(r.pass.End) }},
		{"strokes", func(r *csvRow) string { return strconv.Itoa(r.pass.Strokes) }},
		{"pulls", func(r *csvRow) string { return strconv.Itoa(r.pass.Pulls) }},
		{"minutes", func(r *csvRow) string { return figure(r.pass.Minutes.Minutes(), 2) }},
		{"water_" + q.volumeName, func(r *csvRow) string { return q.volume(r.pass.Water) }},
		{"run_minutes", func(r *csvRow) string { return figure(r.run.Minutes.Minutes(), 2) }},
		{"run_water_" + q.volumeName, func(r *csvRow) string { return q.volume(r.run.Water) }},
		{"starts_at_minute", func(r *csvRow) string {
			return r.tank(func(e *route.Event) string { return figure(e.Start.Minutes(), 2) })
		}},
		{"tank_before_" + q.volumeName, func(r *csvRow) string {
			return r.tank(func(e *route.Event) string { return q.volume(e.Before) })
		}},
		{"tank_after_" + q.volumeName, func(r *csvRow) string {
			return r.tank(func(e *route.Event) string { return q.volume(e.After) })
		}},
		{"pipes_cleaned", func(r *csvRow) string { return r.legs(true) }},
		{"pipes_passed", func(r *csvRow) string { return r.legs(false) }},
		{"confirm_at_" + q.lengthName, func(r *csvRow) string { return r.confirm(q) }},
		{"warnings", (*csvRow).flags},
	}
}

// access returns the access of the row's run, an empty one where the site has
// none of that name.
func (r *csvRow) access() *network.Access {
	if i, ok := r.w.graph.NodeIndex(r.run.Access); ok && r.w.site.Network.Nodes[i].Access != nil {
		return r.w.site.Network.Nodes[i].Access
	}
	return &network.Access{}
}

func (r *csvRow) accessKind() string { return string(r.access().Kind) }

func (r *csvRow) tank(say func(*route.Event) string) string {
	if r.event == nil {
		return ""
	}
	return say(r.event)
}

// legs lists the pipes of the run's path that are cleaned, or only passed.
func (r *csvRow) legs(cleaned bool) string {
	var names []string
	for _, leg := range r.run.Path {
		if leg.Cleaned == cleaned {
			names = append(names, r.w.pipe(leg.Pipe))
		}
	}
	return guarded(strings.Join(names, "; "))
}

// confirm lists the readings at which a locator must confirm a branch.
func (r *csvRow) confirm(q csvQuantities) string {
	var at []string
	for _, f := range r.run.Fittings {
		if f.Confirm {
			at = append(at, q.length(f.At))
		}
	}
	return strings.Join(at, "; ")
}

// flags lists the keys of the run's warnings, each once.
func (r *csvRow) flags() string {
	var keys []string
	for _, f := range r.run.Flags {
		if !slices.Contains(keys, string(f.Kind)) {
			keys = append(keys, string(f.Kind))
		}
	}
	return guarded(strings.Join(keys, "; "))
}

// csvQuantities writes the figures of a table in one system of units, and
// names the units as they stand in its header.
type csvQuantities struct {
	lengthName, pressureName, flowName, forceName, volumeName string

	length   func(unit.Length) string
	pressure func(unit.Pressure) string
	flow     func(unit.Flow) string
	force    func(unit.Force) string
	volume   func(unit.Volume) string
}

func csvUnits(sys unit.System) csvQuantities {
	if sys == unit.Metric {
		return csvQuantities{
			"m", "bar", "l_per_min", "n", "l",
			func(l unit.Length) string { return figure(l.Metres(), 3) },
			func(p unit.Pressure) string { return figure(p.Bar(), 1) },
			func(q unit.Flow) string { return figure(q.LitresPerMinute(), 1) },
			func(f unit.Force) string { return figure(f.Newtons(), 1) },
			func(v unit.Volume) string { return figure(v.Litres(), 1) },
		}
	}
	return csvQuantities{
		"ft", "psi", "gpm", "lbf", "gal",
		func(l unit.Length) string { return figure(l.Feet(), 2) },
		func(p unit.Pressure) string { return figure(p.Psi(), 0) },
		func(q unit.Flow) string { return figure(q.GallonsPerMinute(), 2) },
		func(f unit.Force) string { return figure(f.PoundsForce(), 1) },
		func(v unit.Volume) string { return figure(v.Gallons(), 1) },
	}
}
