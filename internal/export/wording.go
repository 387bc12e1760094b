package export

import (
	"strings"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// wording puts the things of one site into words, in one system of units. A
// plan that names what the site does not have gets the bare name back.
type wording struct {
	sys    unit.System
	site   *site.Site
	tables *site.Tables
	graph  *network.Graph
}

// node names a node by its label.
func (w *wording) node(id network.NodeID) string {
	if i, ok := w.graph.NodeIndex(id); ok {
		return w.graph.NodeName(i)
	}
	return string(id)
}

// place names a node by its label, or by what it is: no crew knows its key.
func (w *wording) place(id network.NodeID) string {
	name := w.node(id)
	if what := strings.TrimSuffix(name, " "+string(id)); what != "" {
		return what
	}
	return name
}

// pipe names a pipe by its label.
func (w *wording) pipe(id network.PipeID) string {
	if i, ok := w.graph.PipeIndex(id); ok {
		return w.graph.PipeName(i)
	}
	return string(id)
}

// thePipe names a pipe as it stands in a sentence: "pipe B-2".
func (w *wording) thePipe(id network.PipeID) string {
	if name := w.pipe(id); !strings.HasPrefix(name, "pipe ") {
		return "pipe " + name
	}
	return w.pipe(id)
}

// pipeData returns the pipe that id names, nil where there is none.
func (w *wording) pipeData(id network.PipeID) *network.Pipe {
	if i, ok := w.graph.PipeIndex(id); ok {
		return &w.site.Network.Pipes[i]
	}
	return nil
}

// pipeSpec says what a pipe is: "4 in cast iron, building drain". The common
// classes, branch and main, go without saying.
func (w *wording) pipeSpec(id network.PipeID) string {
	p := w.pipeData(id)
	if p == nil {
		return ""
	}
	return list(p.Size.In(w.sys)+" "+w.material(p.Material), classWords[p.Class])
}

// material names a pipe material.
func (w *wording) material(m network.Material) string {
	if row, ok := w.tables.Materials[m]; ok && row.Name != "" && materialWords[m] == "" {
		return small(row.Name)
	}
	return word(materialWords, m)
}

// deposit says what has to come out of a pipe: "heavy grease".
func (w *wording) deposit(p *network.Pipe) string {
	if p.Deposit == "" || p.Deposit == network.NoDeposit {
		return "no deposit"
	}
	name := word(nil, p.Deposit)
	if p.Deposit == network.UnknownDep {
		name = "unknown deposit"
	}
	if row, ok := w.tables.Deposits[p.Deposit]; ok && row.Name != "" {
		name = small(row.Name)
	}
	if p.Severity == "" {
		return name
	}
	return string(p.Severity) + " " + name
}

// opening says what an access is and where: "one-way cleanout, 4 in, indoors",
// "laundry, Floor 1".
func (w *wording) opening(id network.NodeID) (what, where string) {
	i, ok := w.graph.NodeIndex(id)
	if !ok || w.site.Network.Nodes[i].Access == nil {
		return "", ""
	}
	n := &w.site.Network.Nodes[i]
	side := "outdoors"
	if n.Access.Indoor {
		side = "indoors"
	}
	level := n.Level
	if strings.Contains(strings.ToLower(n.Access.Room), strings.ToLower(level)) {
		level = ""
	}
	return list(word(accessWords, n.Access.Kind), n.Access.Size.In(w.sys), side), list(n.Access.Room, level)
}

// spot returns the spot that id names, nil where there is none.
func (w *wording) spot(id site.SpotID) *site.Spot {
	return lookup(w.site.Spots, id, func(s *site.Spot) site.SpotID { return s.ID })
}

// spotName names a spot by its label.
func (w *wording) spotName(id site.SpotID) string {
	if s := w.spot(id); s != nil && s.Label != "" {
		return s.Label
	}
	return string(id)
}

// hose returns the hose that id names, nil where there is none.
func (w *wording) hose(id string) *rig.Hose {
	return lookup(w.site.Rig.Hoses, id, func(h *rig.Hose) string { return h.ID })
}

// hoseName names a hose.
func (w *wording) hoseName(id string) string {
	if h := w.hose(id); h != nil && h.Name != "" {
		return h.Name
	}
	return id
}

// nozzleName names a nozzle.
func (w *wording) nozzleName(id string) string {
	if n := w.nozzle(id); n != nil && n.Name != "" {
		return n.Name
	}
	return id
}

// nozzle returns the nozzle that id names, nil where there is none.
func (w *wording) nozzle(id string) *rig.Nozzle {
	return lookup(w.site.Rig.Nozzles, id, func(n *rig.Nozzle) string { return n.ID })
}
