package hand

import (
	"errors"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
)

// Lay draws the way of the hose over the ground, from a spot to an opening or a
// water point.
type Lay struct {
	pointer
	spot site.SpotID
	// points are the spot's place and the corners drawn so far, none while
	// nothing is begun.
	points []network.Point
}

// NewLay returns the tool that draws hose lays.
func NewLay() *Lay { return &Lay{} }

// Name is the name that the kit shows.
func (t *Lay) Name() string { return "Hose lay" }

// Busy reports whether a lay is begun.
func (t *Lay) Busy() bool { return len(t.points) > 0 }

// Hint says what the next click does.
func (t *Lay) Hint(*World) string {
	if !t.Busy() {
		return "Click the spot that the hose comes from."
	}
	return "Click the corners on the way, then the opening or water point that the hose goes to."
}

var (
	errNoSpot = errors.New("a hose lay begins at a spot: click one, or place one first")
	errNoEnd  = errors.New("a hose lay ends at an opening or a water point: click one")
)

// Handle takes one event.
func (t *Lay) Handle(w *World, ev Event) Reply {
	ev, used := t.follow(w, ev)
	switch {
	case used:
	case ev.Kind == Press && !ev.Right && ev.Clicks < 2:
		return t.put(w)
	case ev.Kind == Key && ev.Key == "Escape" && !t.Busy():
		return Reply{Tool: NewPick()}
	case ev.Kind == Key && t.Busy() && (ev.Key == "Escape" || ev.Key == "BackSpace"):
		t.points = t.points[:len(t.points)-1]
	case ev.Kind == Key && t.Busy() && enters(ev):
		return Reply{Err: errNoEnd}
	case ev.Kind == Key, ev.Kind == Rune:
		return Reply{Unused: true}
	}
	return Reply{}
}

// put takes a click.
func (t *Lay) put(w *World) Reply {
	r, at := t.target(w)
	switch {
	case !t.Busy() && r.Kind != edit.Spot:
		return Reply{Err: errNoSpot}
	case !t.Busy():
		t.spot, t.points = site.SpotID(r.ID), []network.Point{at}
		return Reply{}
	case r.Kind == edit.Node, r.Kind == edit.Water:
		e, err := edit.PlaceLay(w.Site, t.spot, r, t.points[1:])
		if err == nil {
			t.points = nil
		}
		return edited(e, err)
	case r.Kind == edit.Spot || at == t.points[len(t.points)-1]:
		return Reply{}
	}
	t.points = append(t.points, at)
	return Reply{}
}

// target is what a click would take: a spot, an opening or a water point, else a
// place on the ground.
func (t *Lay) target(w *World) (edit.Ref, network.Point) {
	s := t.sight(w)
	h, ok := w.Index.At(t.at, w.Level, s.Within, func(r edit.Ref) bool {
		switch r.Kind {
		case edit.Spot:
			return true
		case edit.Water:
			return t.Busy()
		case edit.Node:
			i, ok := w.Graph.NodeIndex(network.NodeID(r.ID))
			return ok && t.Busy() && w.Graph.Net.Nodes[i].Kind == network.KindAccess
		}
		return false
	})
	if ok {
		return h.Ref, h.At
	}
	s.Bare = true
	return edit.Ref{}, w.Index.Snap(s).At()
}

// Ghost shows the lay as a click would draw it, with its length.
func (t *Lay) Ghost(w *World) Ghost {
	var g Ghost
	line := append([]network.Point{}, t.points...)
	if t.in {
		r, at := t.target(w)
		g.Marks = append(g.Marks, Mark{at, Aim})
		g.Snapped = named(w, r)
		if t.Busy() {
			line = append(line, at)
			g.Texts = []Text{{at, w.Site.Units.Footage(network.WayLength(line)) + " of hose on the ground"}}
		}
	}
	if len(line) > 1 {
		g.Lines = []Line{{line, HosePath}}
	}
	return g
}
