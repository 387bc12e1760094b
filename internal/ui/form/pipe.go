package form

import (
	"fmt"
	"strings"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// pipeFields are what can be said of a pipe, and what follows from it.
func pipeFields() []field[network.Pipe] {
	type pipe = network.Pipe
	return []field[pipe]{
		text("Label", "label", func(p *pipe) *string { return &p.Label }),
		sizes("Size", "size", func(p *pipe) *unit.Size { return &p.Size }),
		keys("Material", "material", func(p *pipe) *network.Material { return &p.Material },
			func(d *desk.Desk, m network.Material) string {
				if row, ok := d.Tables().Materials[m]; ok && row.Name != "" {
					return row.Name
				}
				return export.Capital(export.Word(m))
			}),
		keys("Class", "class", func(p *pipe) *network.PipeClass { return &p.Class }, nil),
		orElse(keys("Deposit", "deposit", func(p *pipe) *network.Deposit { return &p.Deposit },
			func(d *desk.Desk, k network.Deposit) string {
				if row, ok := d.Tables().Deposits[k]; ok && row.Name != "" {
					return row.Name
				}
				return export.Capital(export.Word(k))
			}), func(d *desk.Desk) string { return d.Tables().Deposits[network.NoDeposit].Name }),
		orElse(keys("Severity", "severity", func(p *pipe) *network.Severity {
			if p.Deposit == "" || p.Deposit == network.NoDeposit {
				return nil
			}
			return &p.Severity
		}, nil), func(*desk.Desk) string { return export.Capital(export.Word(network.Moderate)) }),
		tick("Not in the job", func(p *pipe) *bool { return &p.OutOfJob }).as("part in the job"),
		optional("Measured", "length", &unit.Lengths, "length as drawn", func(p *pipe) **unit.Length { return &p.Length }).as("length"),
		fact("Length", pipeLength),
		optional("Fall", "slope", &unit.Slopes, "not known", func(p *pipe) **unit.Slope { return &p.Slope }),
		factOf("Falls", pipeFall),
		factOf("Bore", func(d *desk.Desk, p *pipe) string {
			bore, ok := d.Tables().Bore(p.Material, p.Size)
			if !ok {
				return "no table has this size of it"
			}
			return d.Units().Bore(bore)
		}),
		tick("Fragile", func(p *pipe) *bool { return &p.Fragile }),
		optional("At most", "ceiling", &unit.Pressures, "pressure not set", func(p *pipe) **unit.Pressure {
			if !p.Fragile {
				return nil
			}
			return &p.Ceiling
		}).as("highest pressure"),
		factOf("Cleaned by", cleanedBy),
		note("Note", "note", func(p *pipe) *string { return &p.Note }),
	}
}

// orElse has a choice show a word where nothing is kept: the file leaves out
// what goes without saying.
func orElse[T any](f field[T], word func(*desk.Desk) string) field[T] {
	show := f.show
	f.show = func(d *desk.Desk, v *T) (string, bool) {
		text, there := show(d, v)
		if there && text == "" {
			text = word(d)
		}
		return text, there
	}
	return f
}

// pipeLength is the length that the planner goes by, of all the pipes together.
func pipeLength(d *desk.Desk, all []*network.Pipe) string {
	g := d.Graph()
	sum := unit.Length(0)
	for _, p := range all {
		if i, ok := g.PipeIndex(p.ID); ok {
			sum += g.Length(i)
		}
	}
	switch {
	case len(all) > 1:
		return d.Units().Footage(sum) + " together"
	case all[0].Length != nil:
		return d.Units().Footage(sum) + ", as measured"
	}
	return d.Units().Footage(sum) + ", as drawn"
}

// pipeFall is the fall that the planner goes by, where it is not the one
// entered.
func pipeFall(d *desk.Desk, p *network.Pipe) string {
	g := d.Graph()
	i, ok := g.PipeIndex(p.ID)
	if !ok {
		return ""
	}
	fall, known := g.Fall(i)
	if !known {
		return "not known"
	}
	if p.Slope != nil && *p.Slope == fall {
		return "" // the field says it
	}
	return d.Units().Slope(fall) + ", by the heights of its ends"
}

// cleanedBy names the runs that clean a pipe.
func cleanedBy(d *desk.Desk, p *network.Pipe) string {
	plan := d.Planning()
	if plan.Plan == nil {
		return ""
	}
	var runs []string
	for _, b := range plan.Plan.Blocks {
		for i := range b.Runs {
			for _, leg := range b.Runs[i].Path {
				if leg.Pipe == p.ID && leg.Cleaned {
					runs = append(runs, fmt.Sprint(b.Runs[i].Number))
					break
				}
			}
		}
	}
	old := ""
	if plan.Stale {
		old = " (before the last change)"
	}
	switch {
	case len(runs) == 1:
		return "run " + runs[0] + old
	case len(runs) > 1:
		return "runs " + strings.Join(runs, ", ") + old
	}
	return "no run" + old
}

// shortfallOf is what the plan says of a pipe that it does not clean, nil where
// it says nothing.
func shortfallOf(d *desk.Desk, p network.PipeID) *route.Shortfall {
	plan := d.Planning().Plan
	if plan == nil {
		return nil
	}
	for i := range plan.Shortfalls {
		if plan.Shortfalls[i].Pipe == p {
			return &plan.Shortfalls[i]
		}
	}
	return nil
}

// pipeHeading says what a pipe is: "Pipe P-3, 4 in PVC Schedule 40".
func pipeHeading(d *desk.Desk, p *network.Pipe) string {
	name := export.Capital(p.Name())
	if p.Label != "" {
		name = "Pipe " + p.Label
	}
	material := export.Word(p.Material)
	if row, ok := d.Tables().Materials[p.Material]; ok && row.Name != "" {
		material = row.Name
	}
	return name + ", " + p.Size.In(d.Units()) + " " + material
}
