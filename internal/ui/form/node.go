package form

import (
	"strings"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// nodeFields are what can be said of a node. Those that belong to a kind of
// node are there for that kind alone.
func nodeFields() []field[network.Node] {
	type node = network.Node
	opening := keys("Opening", "access.kind", func(n *node) *network.AccessKind {
		if n.Access == nil {
			return nil
		}
		return &n.Access.Kind
	}, nil)
	opening.read = andThen(opening.read, func(n *node) {
		if n.Access.Kind == network.OneWayCleanout && n.Access.Facing == "" {
			n.Access.Facing = network.FacesUpstream // as most are put in
		}
	})
	return append([]field[node]{
		text("Label", "label", func(n *node) *string { return &n.Label }),
		choice("Kind", plainKind, func(*desk.Desk, *node) []option[network.NodeKind] { return plainKinds }),
		opening,
		keys("Faces", "access.facing", func(n *node) *network.Facing {
			if n.Access == nil || n.Access.Kind != network.OneWayCleanout {
				return nil
			}
			return &n.Access.Facing
		}, func(_ *desk.Desk, f network.Facing) string {
			if f == network.FacesDownstream {
				return "With the flow"
			}
			return "Against the flow"
		}).as("facing"),
		sizes("Size", "access.size", ofAccess(func(a *network.Access) *unit.Size { return &a.Size })),
		text("Room", "access.room", ofAccess(func(a *network.Access) *string { return &a.Room })),
		tick("Indoors", ofAccess(func(a *network.Access) *bool { return &a.Indoor })),
		tick("Not to be used", ofAccess(func(a *network.Access) *bool { return &a.OutOfService })).as("use"),
		number("Riser", "access.riser", &unit.Lengths, ofAccess(func(a *network.Access) *unit.Length { return &a.Riser })),
		number("Turn into pipe", "access.entry", &unit.Angles, ofAccess(func(a *network.Access) *unit.Angle { return &a.Entry })),
		orNone("Open, close", "access.open_minutes", &unit.Times, "the crew's pace",
			ofAccess(func(a *network.Access) *float64 { return &a.OpenMinutes })).as("opening time"),
		choice("Fitting", func(n *node) *network.JunctionKind {
			if n.Junction == nil {
				return nil
			}
			return &n.Junction.Kind
		}, fittings),
		choice("Branch", func(n *node) *network.PipeID {
			if n.Junction == nil || len(n.Junction.Branches) != 1 {
				return nil
			}
			return &n.Junction.Branches[0]
		}, legs),
		number("Turn", "turn", &unit.Angles, func(n *node) *unit.Angle {
			if n.Kind != network.KindBend && (n.Kind != network.KindTrap || !n.LetsThrough) {
				return nil
			}
			return &n.Turn
		}),
		factOf("", func(_ *desk.Desk, n *node) string {
			if n.Kind != network.KindBend {
				return ""
			}
			return export.Capital(network.BendName(n.Turn))
		}),
		tick("Hose can pass", func(n *node) *bool {
			if n.Kind != network.KindTrap && n.Kind != network.KindBackwater {
				return nil
			}
			return &n.LetsThrough
		}).as("passage"),
		levelField(func(n *node) *string { return &n.Level }),
		optional("Invert", "invert", &unit.Lengths, "not measured", func(n *node) **unit.Length { return &n.Invert }),
	}, append(placeFields(func(n *node) *network.Point { return &n.At }),
		note("Note", "note", func(n *node) *string { return &n.Note }))...)
}

// ofAccess looks at the access of a node that is one.
func ofAccess[P any](at func(*network.Access) *P) func(*network.Node) *P {
	return func(n *network.Node) *P {
		if n.Access == nil {
			return nil
		}
		return at(n.Access)
	}
}

// andThen has something done after what a field does.
func andThen[T any](
	read func(*desk.Desk, string) (func(*T), error), then func(*T),
) func(*desk.Desk, string) (func(*T), error) {
	return func(d *desk.Desk, text string) (func(*T), error) {
		to, err := read(d, text)
		if err != nil {
			return nil, err
		}
		return func(v *T) { to(v); then(v) }, nil
	}
}

// plainKinds are the kinds of node that need no figures of their own.
var plainKinds = func() []option[network.NodeKind] {
	var all []option[network.NodeKind]
	for _, k := range []network.NodeKind{
		network.KindFixture, network.KindTrap, network.KindReducer, network.KindBackwater,
		network.KindOutlet, network.KindCap, network.KindBend,
	} {
		all = append(all, option[network.NodeKind]{k, export.Capital(export.Word(k))})
	}
	return all
}()

func plainKind(n *network.Node) *network.NodeKind {
	if n.Kind == network.KindAccess || n.Kind == network.KindJunction {
		return nil
	}
	return &n.Kind
}

// fittings are the junctions with as many branches as this one has.
func fittings(_ *desk.Desk, n *network.Node) []option[network.JunctionKind] {
	kinds := []network.JunctionKind{network.Wye, network.SanitaryTee, network.Combination}
	if n.Junction != nil && len(n.Junction.Branches) > 1 {
		kinds = []network.JunctionKind{network.DoubleWye, network.Cross}
	}
	all := make([]option[network.JunctionKind], len(kinds))
	for i, k := range kinds {
		all[i] = option[network.JunctionKind]{k, export.Capital(export.Word(k))}
	}
	return all
}

// legs are the pipes that end at a junction.
func legs(d *desk.Desk, n *network.Node) []option[network.PipeID] {
	var all []option[network.PipeID]
	pipes := d.Site().Network.Pipes
	for i := range pipes {
		if p := &pipes[i]; p.From == n.ID || p.To == n.ID {
			all = append(all, option[network.PipeID]{p.ID, p.Name()})
		}
	}
	return all
}

// levelField is a choice of the site's levels.
func levelField[T any](at func(*T) *string) field[T] {
	return choice("Level", func(v *T) *string { return at(v) }, func(d *desk.Desk, _ *T) []option[string] {
		all := []option[string]{{"", "None"}}
		for i := range d.Site().Network.Levels {
			name := d.Site().Network.Levels[i].Name
			all = append(all, option[string]{name, name})
		}
		return all
	})
}

// placeFields are where a thing lies on the plan.
func placeFields[T any](at func(*T) *network.Point) []field[T] {
	return []field[T]{
		number("East", "at.x", &unit.Lengths, func(v *T) *unit.Length { return &at(v).X }).as("place"),
		number("North", "at.y", &unit.Lengths, func(v *T) *unit.Length { return &at(v).Y }).as("place"),
	}
}

// nodeHeading says what a node is: "Cleanout CO-1, two-way".
func nodeHeading(n *network.Node) string {
	word := export.Capital(n.Word())
	if n.Label != "" {
		word += " " + n.Label
	}
	if n.Access == nil {
		return word
	}
	// "one-way cleanout" says more than "cleanout": the rest of it.
	if sort := strings.TrimSuffix(export.Word(n.Access.Kind), n.Word()); sort != export.Word(n.Access.Kind) && sort != "" {
		word += ", " + strings.TrimSpace(sort)
	}
	return word
}
