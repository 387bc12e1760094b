package export

import (
	"slices"
	"strings"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// noticePlace is a room or a fixture, as people in the building know it, with
// the windows in which the crew needs it open and in which no water may go down
// its drain.
type noticePlace struct {
	name, level string
	label       string
	at          []network.Point // of its openings
	open, dry   []window
	outdoors    bool     // nobody has to unlock it
	fixture     bool     // in no room that is known
	drain       bool     // someone may pour water into it
	with        []string // fixtures told with a room
}

// noticePlaces lists the places that a plan concerns: those whose access the
// crew opens, and those that drain into what is being jetted.
func (w *wording) noticePlaces(p *route.Plan) []*noticePlace {
	type key struct {
		name, level string
		outdoors    bool
	}
	byKey := map[key]*noticePlace{}
	var places []*noticePlace
	of := make([]*noticePlace, len(w.site.Network.Nodes))
	for i := range w.site.Network.Nodes {
		n := &w.site.Network.Nodes[i]
		name := w.placeName(n)
		if name == "" {
			continue
		}
		k := key{name, n.Level, n.Access != nil && !n.Access.Indoor && n.Access.Kind != network.RoofVent}
		if byKey[k] == nil {
			byKey[k] = &noticePlace{
				name: name, label: w.place(n.ID), level: n.Level, outdoors: k.outdoors, fixture: n.Access == nil, drain: n.Access == nil || n.Access.Indoor,
			}
			places = append(places, byKey[k])
		}
		of[i] = byKey[k]
		of[i].at = append(of[i].at, n.At)
	}
	w.openWindows(p, of)
	w.dryWindows(p, of)
	places = slices.DeleteFunc(places, func(pl *noticePlace) bool { return len(pl.open) == 0 && len(pl.dry) == 0 })
	for _, pl := range places {
		pl.open, pl.dry = join(pl.open), join(pl.dry)
	}
	w.tellApart(places)
	slices.SortStableFunc(places, func(a, b *noticePlace) int { return byName(a.name, b.name) })
	return places
}

// roomReach is how far from a room's opening a fixture is still told with that
// room.
var roomReach = unit.Metres(2.5)

// housed tells a fixture with a room on its level whose drains have the same
// windows: the one that its name speaks of, else the nearest, if it is near.
// Others stay by themselves.
func housed(places []*noticePlace) []*noticePlace {
	var out []*noticePlace
	for _, f := range places {
		var room *noticePlace
		best := roomReach
		for _, pl := range places {
			if pl.fixture || pl.outdoors || pl.level != f.level || !slices.Equal(pl.dry, f.dry) {
				continue
			}
			far := pl.from(f.at[0])
			if strings.Contains(strings.ToLower(f.name), strings.ToLower(pl.name)) {
				far = 0
			}
			if far < best {
				best, room = far, pl
			}
		}
		if !f.fixture || room == nil {
			out = append(out, f)
			continue
		}
		room.with = append(room.with, f.label)
	}
	return out
}

// from is how far a point is from the nearest of the place's openings.
func (pl *noticePlace) from(at network.Point) unit.Length {
	best := at.Distance(pl.at[0])
	for _, o := range pl.at[1:] {
		best = min(best, at.Distance(o))
	}
	return best
}

// said is the place's name with the fixtures that go with it.
func (pl *noticePlace) said() string {
	if len(pl.with) == 0 {
		return pl.name
	}
	return pl.name + "; also " + strings.Join(pl.with, ", ")
}

// placeName is how people know the place of a node: its room, or the label and
// what a note says of a fixture; "" for what nobody in the building knows.
func (w *wording) placeName(n *network.Node) string {
	switch {
	case n.Kind == network.KindAccess && n.Access != nil:
		if room := OneLine(n.Access.Room); strings.TrimSpace(room) != "" {
			return capital(room)
		}
		return w.place(n.ID)
	case n.Kind == network.KindFixture:
		name := w.place(n.ID)
		what, _, _ := strings.Cut(OneLine(n.Note), ";")
		if strings.HasPrefix(strings.ToLower(name), strings.ToLower(strings.TrimSpace(what))) {
			what = ""
		}
		return list(name, what)
	}
	return ""
}

// tellApart adds the level to names that stand on several.
func (w *wording) tellApart(places []*noticePlace) {
	levels := map[string]map[string]bool{}
	for _, pl := range places {
		if levels[pl.name] == nil {
			levels[pl.name] = map[string]bool{}
		}
		levels[pl.name][pl.level] = true
	}
	for _, pl := range places {
		if len(levels[pl.name]) > 1 {
			pl.name = list(pl.name, pl.level)
		}
	}
}

// openWindows notes when each access is open: in each block from the first event
// of its first run to the last of its last.
func (w *wording) openWindows(p *route.Plan, of []*noticePlace) {
	whole, _ := runWindows(p)
	for b := range p.Blocks {
		open := map[network.NodeID]window{}
		var order []network.NodeID
		for i := range p.Blocks[b].Runs {
			run := &p.Blocks[b].Runs[i]
			at, ok := whole[run.Number]
			if !ok {
				continue
			}
			if was, ok := open[run.Access]; ok {
				at.from = was.from
			} else {
				order = append(order, run.Access)
			}
			open[run.Access] = at
		}
		for _, id := range order {
			if n, ok := w.graph.NodeIndex(id); ok && of[n] != nil {
				of[n].open = append(of[n].open, open[id])
			}
		}
	}
}

// dryWindows notes when no water may come from each place: while a pipe that it
// drains through is jetted or has the hose in it, from a run's first jet to its
// last.
func (w *wording) dryWindows(p *route.Plan, of []*noticePlace) {
	_, jets := runWindows(p)
	for _, run := range p.Runs() {
		at, ok := jets[run.Number]
		if !ok {
			continue
		}
		seen := map[*noticePlace]bool{}
		for _, n := range w.drainingInto(run) {
			if pl := of[n]; pl != nil && pl.drain && !seen[pl] {
				seen[pl] = true
				pl.dry = append(pl.dry, at)
			}
		}
	}
}

// drainingInto lists the nodes whose water comes through a pipe on a run's way.
func (w *wording) drainingInto(run *route.Run) []int {
	var nodes, todo []int
	seen := make([]bool, len(w.graph.Up))
	add := func(pipe int) {
		if !seen[pipe] {
			seen[pipe] = true
			todo = append(todo, pipe)
		}
	}
	for _, leg := range run.Path {
		if i, ok := w.graph.PipeIndex(leg.Pipe); ok {
			add(i)
		}
	}
	for len(todo) > 0 {
		up := w.graph.Up[todo[len(todo)-1]]
		todo = todo[:len(todo)-1]
		if up < 0 {
			continue
		}
		nodes = append(nodes, up)
		for _, q := range w.graph.Above[up] {
			add(q)
		}
	}
	return nodes
}

// spotWindows are the times in which the trailer stands at each spot, from the
// set-up to the end of the pack-up, in the order of the day.
func spotWindows(p *route.Plan) (order []site.SpotID, at map[site.SpotID][]window) {
	at = map[site.SpotID][]window{}
	for i := range p.Day {
		e := &p.Day[i]
		if e.Block < 0 || e.Block >= len(p.Blocks) || e.Kind == route.EventMove {
			continue
		}
		spot := p.Blocks[e.Block].Spot
		if len(at[spot]) == 0 {
			order = append(order, spot)
		}
		if n := len(at[spot]); n > 0 && at[spot][n-1].to == e.Start {
			at[spot][n-1].to = e.Start + e.Takes
			continue
		}
		at[spot] = append(at[spot], window{e.Start, e.Start + e.Takes})
	}
	return order, at
}
