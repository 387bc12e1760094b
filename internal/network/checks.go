package network

import (
	"slices"

	"linemap/internal/unit"
)

// Findings returns what is wrong, or looks wrong, with the sketch beside what
// [Trace] tells: ends, fittings, sizes, lengths and angles that do not fit,
// pipes that cross without a fitting, and what the code edition asks of falls
// and accesses. They are sorted, worst first.
//
// Bores gives the true bore of a material and a size, false where there is no
// figure; nil leaves that check out. The time is near linear in the size of the
// network.
func (g *Graph) Findings(code Code, bores func(Material, unit.Size) (unit.Length, bool)) []Finding {
	c := checker{g: g, code: code, bores: bores}
	for node := range g.Net.Nodes {
		c.ends(node)
		c.data(node)
		c.angles(node)
	}
	for p := range g.Net.Pipes {
		c.size(p)
		c.lengths(p)
		if g.Up[p] >= 0 {
			c.falls(p)
		}
	}
	c.stretches()
	c.accesses()
	c.labels()
	c.crossings()
	return c.sorted()
}

// checker is a check of a sketch at work.
type checker struct {
	g     *Graph
	code  Code
	bores func(Material, unit.Size) (unit.Length, bool)
	findings
}

// commonPractice is the source of what the trade does without a rule for it.
const commonPractice = "common practice"

// localCode is the cure of everything that a code edition asks for.
const localCode = "check your local code"

// labels tells of labels that stand twice: a crew finds places by them. The
// finding stands at the first by ID.
func (c *checker) labels() {
	nodes, pipes := map[string][]NodeID{}, map[string][]PipeID{}
	for _, n := range c.g.Net.Nodes {
		nodes[n.Label] = append(nodes[n.Label], n.ID)
	}
	for _, p := range c.g.Net.Pipes {
		pipes[p.Label] = append(pipes[p.Label], p.ID)
	}
	for label, ids := range nodes {
		if label != "" && len(ids) > 1 {
			c.duplicate(Finding{Node: slices.Min(ids), Place: label}, unit.Count(len(ids), "place"))
		}
	}
	for label, ids := range pipes {
		if label != "" && len(ids) > 1 {
			c.duplicate(Finding{Pipe: slices.Min(ids), Place: label}, unit.Count(len(ids), "pipe"))
		}
	}
}

func (c *checker) duplicate(where Finding, things string) {
	where.Gravity, where.Kind = Warning, "duplicate_label"
	c.add(where, Finding{
		What: things + " are labelled " + where.Place + ".", Value: things, Limit: "1",
		Cure: "Give each a label of its own, so that the crew opens the right one.",
	})
}
