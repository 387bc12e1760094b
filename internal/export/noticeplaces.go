package export

import (
	"slices"
	"strings"

	"linemap/internal/network"
	"linemap/internal/route"
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
