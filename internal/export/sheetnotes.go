package export

import (
	"strings"

	"linemap/internal/network"
	"linemap/internal/route"
)

// notes are the free words of the document that stand with no run: on the job,
// the rig, the water points, on places of the job that no run meets, and those
// too long to stand with their run.
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
		add(capital(w.waterPoint(&w.site.Water[i])), w.site.Water[i].Note)
	}
	nodes, pipes := w.met(p)
	for i := range w.site.Network.Nodes {
		if n := &w.site.Network.Nodes[i]; !nodes[n.ID] && w.inJob(i) || shortNote(n.Note) != n.Note {
			add(capital(w.node(n.ID)), n.Note)
		}
	}
	for i := range w.site.Network.Pipes {
		if pipe := &w.site.Network.Pipes[i]; !pipes[pipe.ID] && !pipe.OutOfJob || shortNote(pipe.Note) != pipe.Note {
			add(capital(w.thePipe(pipe.ID)), pipe.Note)
		}
	}
	return facts
}

// inJob tells whether a pipe of the job ends at a node.
func (w *wording) inJob(node int) bool {
	for _, pipes := range [][]int{w.graph.Above[node], w.graph.Below[node]} {
		for _, p := range pipes {
			if !w.site.Network.Pipes[p].OutOfJob {
				return true
			}
		}
	}
	return false
}

// met collects the nodes and pipes whose notes stand with a run.
func (w *wording) met(p *route.Plan) (map[network.NodeID]bool, map[network.PipeID]bool) {
	nodes, pipes := map[network.NodeID]bool{}, map[network.PipeID]bool{}
	for _, run := range p.Runs() {
		nodes[run.Access] = true
		for _, leg := range run.Path {
			pipes[leg.Pipe] = true
		}
		for _, f := range run.Fittings {
			nodes[f.Node] = true
		}
		if end, ok := w.farEnd(run); ok {
			nodes[end] = true
		}
	}
	return nodes, pipes
}

// placeNote is the note on a node of a run's way, the first time that the run
// meets it.
func (w *wording) placeNote(id network.NodeID, seen map[network.NodeID]bool) string {
	i, ok := w.graph.NodeIndex(id)
	if !ok || seen[id] {
		return ""
	}
	seen[id] = true
	return runNote(w.site.Network.Nodes[i].Note)
}

// runNote is a note as it stands with a run.
func runNote(s string) string {
	if short := shortNote(s); short != s {
		return short + " (in full under Notes)"
	}
	return sentence(s)
}

// longestNote is the length in characters up to which a note stands in full
// with a run; a longer one is cut there and stands in full at the end.
const longestNote = 160

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
