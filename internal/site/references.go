package site

import (
	"fmt"
	"io/fs"
	"strings"
	"time"
	"unicode"

	"linemap/internal/network"
	"linemap/internal/rig"
)

// where is the path of a place in a document that is already loaded.
type where string

func (w where) String() string { return string(w) }

func at(format string, args ...any) where { return where(fmt.Sprintf(format, args...)) }

// checkReferences finds what the schema cannot say: names used twice, names
// that nothing has, and days that no calendar has.
func (s *Site) checkReferences() error {
	var p problems
	checkDate(&p, "job.date", s.Job.Date)
	net := &s.Network
	levels := unique(&p, "network.levels", "name", len(net.Levels), func(i int) string { return net.Levels[i].Name })
	nodes := unique(&p, "network.nodes", "id", len(net.Nodes), func(i int) string { return string(net.Nodes[i].ID) })
	pipes := unique(&p, "network.pipes", "id", len(net.Pipes), func(i int) string { return string(net.Pipes[i].ID) })
	spots := unique(&p, "spots", "id", len(s.Spots), func(i int) string { return string(s.Spots[i].ID) })
	water := unique(&p, "water_points", "id", len(s.Water), func(i int) string { return string(s.Water[i].ID) })
	unique(&p, "areas", "id", len(s.Areas), func(i int) string { return string(s.Areas[i].ID) })
	unique(&p, "notes", "id", len(s.Notes), func(i int) string { return string(s.Notes[i].ID) })
	unique(&p, "underlays", "id", len(s.Underlays), func(i int) string { return string(s.Underlays[i].ID) })
	checkRig(&p, "rig.", &s.Rig)
	checkPrices(&p, "prices.", &s.Prices)
	s.checkVisits(&p)

	for i := range net.Nodes {
		checkNode(&p, net, &net.Nodes[i], levels, pipes)
	}
	for i := range net.Pipes {
		checkPipe(&p, &net.Pipes[i], nodes)
	}
	s.checkLays(&p, nodes, spots, water)
	for i := range s.Notes {
		checkLevel(&p, at("notes[%s].level", s.Notes[i].ID), s.Notes[i].Level, levels)
	}
	for i := range s.Underlays {
		u := &s.Underlays[i]
		checkLevel(&p, at("underlays[%s].level", u.ID), u.Level, levels)
		checkFile(&p, at("underlays[%s].file", u.ID), u.File)
	}
	return p.err()
}

// checkDate finds a day that no calendar has; an empty one is no day.
func checkDate(p *problems, place where, date string) {
	if date == "" {
		return
	}
	if _, err := time.Parse(time.DateOnly, date); err != nil {
		p.add(place, quote(date), "a day of the calendar")
	}
}

// checkFile finds a path that leads out of the document's folder, or that one
// system or another would read as something else. An empty one is no path.
func checkFile(p *problems, place where, file string) {
	if file != "" && (!fs.ValidPath(file) || file == "." || strings.ContainsFunc(file, notInPath)) {
		p.add(place, quote(file), "a path inside the folder of the document, with / between its parts")
	}
}

func notInPath(r rune) bool { return r == '\\' || r == ':' || unicode.IsControl(r) }

func checkRig(p *problems, in string, r *rig.Rig) {
	unique(p, in+"hoses", "id", len(r.Hoses), func(i int) string { return r.Hoses[i].ID })
	unique(p, in+"nozzles", "id", len(r.Nozzles), func(i int) string { return r.Nozzles[i].ID })
}

// unique maps each name to its index and reports the names used twice.
func unique(p *problems, list, member string, n int, name func(int) string) map[string]int {
	index := make(map[string]int, n)
	for i := range n {
		if first, twice := index[name(i)]; twice {
			p.add(at("%s[%d].%s", list, i, member), quote(name(i))+" a second time", fmt.Sprintf("unlike that of %s[%d]", list, first))
			continue
		}
		index[name(i)] = i
	}
	return index
}

func checkNode(p *problems, net *network.Network, n *network.Node, levels, pipes map[string]int) {
	checkLevel(p, at("network.nodes[%s].level", n.ID), n.Level, levels)
	if n.Junction == nil {
		return
	}
	for i, id := range n.Junction.Branches {
		place := at("network.nodes[%s].junction.branches[%d]", n.ID, i)
		if k, ok := pipes[string(id)]; !ok {
			p.add(place, quote(string(id)), "the id of a pipe")
		} else if pipe := &net.Pipes[k]; pipe.From != n.ID && pipe.To != n.ID {
			p.add(place, quote(string(id)), "the id of a pipe that ends at this node")
		}
	}
}

// checkLevel finds the name of a level that is not there; an empty one is no
// name.
func checkLevel(p *problems, place where, level string, levels map[string]int) {
	if _, ok := levels[level]; level != "" && !ok {
		p.add(place, quote(level), "the name of a level")
	}
}

func checkPipe(p *problems, pipe *network.Pipe, nodes map[string]int) {
	if _, ok := nodes[string(pipe.From)]; !ok {
		p.add(at("network.pipes[%s].from", pipe.ID), quote(string(pipe.From)), "the id of a node")
	}
	if _, ok := nodes[string(pipe.To)]; !ok {
		p.add(at("network.pipes[%s].to", pipe.ID), quote(string(pipe.To)), "the id of a node")
	} else if pipe.From == pipe.To {
		p.add(at("network.pipes[%s].to", pipe.ID), quote(string(pipe.To)), "another node than from")
	}
}

func (s *Site) checkLays(p *problems, nodes, spots, water map[string]int) {
	first := make(map[string]int, len(s.Lays))
	for i := range s.Lays {
		l := &s.Lays[i]
		key := l.key()
		if k, twice := first[key]; twice {
			p.add(at("lays[%d]", i), "the lay "+key+" a second time", fmt.Sprintf("unlike lays[%d]", k))
			continue
		}
		first[key] = i
		if _, ok := spots[string(l.Spot)]; !ok {
			p.add(at("lays[%s].spot", key), quote(string(l.Spot)), "the id of a spot")
		}
		if l.Access != "" {
			if k, ok := nodes[string(l.Access)]; !ok || s.Network.Nodes[k].Kind != network.KindAccess {
				p.add(at("lays[%s].access", key), quote(string(l.Access)), "the id of an access")
			}
		} else if _, ok := water[string(l.Water)]; !ok {
			p.add(at("lays[%s].water", key), quote(string(l.Water)), "the id of a water point")
		}
	}
}

// key names a lay by its ends, as the schema's x-key does.
func (l *Lay) key() string {
	return strings.TrimRight(strings.Join([]string{string(l.Spot), string(l.Access), string(l.Water)}, ","), ",")
}
