package hand

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
)

// Area draws around a part of the ground and says what it is for.
type Area struct {
	pointer
	kind site.AreaKind
	// points are the corners drawn so far, none while nothing is begun.
	points []network.Point
}

// NewArea returns the tool that draws areas: where the trailer may stand, until
// Tab turns to the next kind.
func NewArea() *Area { return &Area{kind: site.Stand} }

// Name is the name that the kit shows.
func (t *Area) Name() string { return "Area" }

// Busy reports whether an area is begun.
func (t *Area) Busy() bool { return len(t.points) > 0 }

// Hint says what the next click does.
func (t *Area) Hint(*World) string {
	switch n := len(t.points); {
	case n == 0:
		return "Click the first corner of the area. Tab then says what it is for."
	case n < leastCorners:
		return "Click the next corner of the " + t.kind.Word() + ". Tab: " + t.next().Word() + "."
	}
	return "Click the next corner, or Return to close the " + t.kind.Word() + ". Tab: " + t.next().Word() + "."
}

const leastCorners = 3

// next is the kind that Tab turns to.
func (t *Area) next() site.AreaKind {
	kinds := site.AreaKinds()
	return kinds[(slices.Index(kinds, t.kind)+1)%len(kinds)]
}

// Handle takes one event.
func (t *Area) Handle(w *World, ev Event) Reply {
	ev, used := t.follow(w, ev)
	switch {
	case used:
	case ev.Kind == Press && !ev.Right && ev.Clicks < 2:
		return t.put(w)
	case ev.Kind == Press && !ev.Right && len(t.points) >= leastCorners:
		return t.finish(w)
	case ev.Kind == Key && ev.Key == "Escape" && !t.Busy():
		return Reply{Tool: NewPick()}
	case ev.Kind == Key && t.Busy() && (ev.Key == "Escape" || ev.Key == "BackSpace"):
		t.points = t.points[:len(t.points)-1]
	case ev.Kind == Key && t.Busy() && enters(ev):
		return t.finish(w)
	case ev.Kind == Key && t.Busy() && ev.Key == "Tab":
		t.kind = t.next()
	case ev.Kind == Rune && len(t.points) >= leastCorners && isKey(ev.Rune): // nothing drawn is lost
		r := t.finish(w)
		r.Unused = r.Err == nil
		return r
	case ev.Kind == Key, ev.Kind == Rune:
		return Reply{Unused: true}
	}
	return Reply{}
}

// put takes a click.
func (t *Area) put(w *World) Reply {
	at, closes := t.target(w)
	switch {
	case closes:
		return t.finish(w)
	case t.Busy() && at.At() == t.points[len(t.points)-1]:
		return Reply{}
	}
	t.points = append(t.points, at.At())
	return Reply{}
}

// target is where a click would put a corner, or whether it would close the
// outline.
func (t *Area) target(w *World) (at aim.Aim, closes bool) {
	s := t.sight(w)
	s.Bare = true
	if n := len(t.points); n > 0 {
		if n >= leastCorners && t.at.Distance(t.points[0]) <= s.Within {
			return aim.Aim{Anchor: edit.Anchor{At: t.points[0]}, Snapped: "the first corner"}, true
		}
		from := t.points[n-1]
		s.From = &from
	}
	return w.Index.Snap(s), false
}

func (t *Area) finish(w *World) Reply {
	e, err := edit.PlaceArea(w.Site, t.kind, t.points)
	if err == nil {
		t.points = nil
	}
	return edited(e, err)
}

// Ghost shows the area as a click would draw it, with how large it is.
func (t *Area) Ghost(w *World) Ghost {
	var g Ghost
	line := slices.Clone(t.points)
	if t.in {
		at, closes := t.target(w)
		g.show(w, at)
		words := t.kind.Word()
		if t.Busy() {
			if !closes {
				line = append(line, at.At())
				words += ", " + w.Site.Units.Footage(t.points[len(t.points)-1].Distance(at.At()))
			}
			if len(line) >= leastCorners {
				words += ", " + w.Site.Units.Area(site.AreaOf(line))
			}
		}
		g.Texts = []Text{{at.At(), words}}
	}
	if len(line) > 1 {
		g.Lines = append(g.Lines, Line{line, NewPipe}, Line{[]network.Point{line[len(line)-1], line[0]}, Guideline})
	}
	for _, p := range t.points {
		g.Marks = append(g.Marks, Mark{p, Corner})
	}
	return g
}

// closed is the way around some corners, back to the first.
func closed(corners []network.Point) []network.Point {
	if len(corners) == 0 {
		return nil
	}
	return append(slices.Clone(corners), corners[0])
}
