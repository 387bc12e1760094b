package export

import (
	"strings"

	"linemap/internal/network"
	"linemap/internal/route"
)

// notes are the free words of the document that stand with no run: on the job,
// the rig, the water points, on places that no run meets, and those too long
// to stand with their run.
func (w *wording) notes(p *route.Plan) []fact {
	var facts []fact
	add := func(name, say string) {
		if say != "" {
			facts = append(facts, fact{name, say})
		}
	}
	add("The job", w.site.Job.Note)
	add("The rig", w.site.Rig.Note)
	for i := range w.site.Water {
		add("Water point "+w.site.Water[i].Label, w.site.Water[i].Note)
	}
	nodes, pipes := met(p)
	for i := range w.site.Network.Nodes {
		if n := &w.site.Network.Nodes[i]; !nodes[n.ID] || shortNote(n.Note) != n.Note {
			add(capital(w.node(n.ID)), n.Note)
		}
	}
	for i := range w.site.Network.Pipes {
		if pipe := &w.site.Network.Pipes[i]; !pipes[pipe.ID] || shortNote(pipe.Note) != pipe.Note {
			add(capital(w.thePipe(pipe.ID)), pipe.Note)
		}
	}
	return facts
}

// met collects the nodes and pipes whose notes stand with a run.
func met(p *route.Plan) (map[network.NodeID]bool, map[network.PipeID]bool) {
	nodes, pipes := map[network.NodeID]bool{}, map[network.PipeID]bool{}
	for i := range p.Blocks {
		for j := range p.Blocks[i].Runs {
			run := &p.Blocks[i].Runs[j]
			nodes[run.Access] = true
			for _, leg := range run.Path {
				pipes[leg.Pipe] = true
			}
			for _, f := range run.Fittings {
				nodes[f.Node] = true
			}
		}
	}
	return nodes, pipes
}

// runNotes are the notes on what a run meets, in travel order.
func (w *wording) runNotes(run *route.Run) []string {
	var notes []string
	add := func(name, say string) {
		if short := shortNote(say); short != say {
			say = short + " (in full under Notes)"
		}
		if say != "" {
			notes = append(notes, capital(name)+": "+say)
		}
	}
	seen := map[network.NodeID]bool{}
	node := func(id network.NodeID) {
		if i, ok := w.graph.NodeIndex(id); ok && !seen[id] {
			add(w.node(id), w.site.Network.Nodes[i].Note)
		}
		seen[id] = true
	}
	node(run.Access)
	for _, leg := range run.Path {
		if p := w.pipeData(leg.Pipe); p != nil {
			add(w.thePipe(leg.Pipe), p.Note)
		}
	}
	for _, f := range run.Fittings {
		node(f.Node)
	}
	return notes
}

// longestNote is the length in characters up to which a note stands in full
// with a run; a longer one is cut there and stands in full at the end.
const longestNote = 200

// shortNote cuts a note that is too long to stand with a run.
func shortNote(s string) string {
	n := 0
	for i := range s {
		if n++; n > longestNote {
			return strings.TrimRight(s[:i], " ") + "…"
		}
	}
	return s
}
