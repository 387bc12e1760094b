package hand

import (
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
	"linemap/internal/unit"
)

// Pick selects, and moves what is selected.
type Pick struct {
	pointer
	doing doing
	// press is the press that something began with, hit what it hit.
	press Event
	hit   aim.Hit
	// load is what is carried, bend the corner that is dragged.
	load load
	bend bend
}

// doing is what a drag of the picking tool does.
type doing int

const (
	nothing  doing = iota
	pressed        // the button is down on a thing, and has not moved far
	apart          // the button is down on nothing, and has not moved far
	boxing         // a box is pulled open
	carrying       // what is selected is moved
	bending        // a corner is moved
)

// NewPick returns the tool that selects and moves.
func NewPick() *Pick { return &Pick{} }

// Name is the name that the kit shows.
func (t *Pick) Name() string { return "Pick" }

// Busy reports whether something is being dragged.
func (t *Pick) Busy() bool { return t.doing > apart }

// Hint says what the next click or key does.
func (t *Pick) Hint(w *World) string {
	switch {
	case t.doing == boxing && t.crosses():
		return "Let go to pick what the frame touches. Pull it to the right for what lies inside."
	case t.doing == boxing:
		return "Let go to pick what lies inside the frame. Pull it to the left for what it touches."
	case t.doing == carrying:
		return "Let go to put it there. Shift: straight along. Alt: off the grid. Escape: leave it."
	case t.doing == bending:
		return "Let go to put the corner there. Shift: any angle. Alt: off the grid. Escape: leave it."
	case w.Selection.Len() > 0:
		return "Drag to move, arrows to nudge, right click for more. Double click for a corner."
	}
	return "Click to pick, Shift for one more, Alt for what lies under it. Drag a frame for many."
}

// Handle takes one event.
func (t *Pick) Handle(w *World, ev Event) Reply {
	if ev.Kind == Key {
		return t.key(w, ev)
	}
	if ev.Kind == Rune {
		return Reply{Unused: true}
	}
	if _, used := t.follow(w, ev); used {
		return Reply{}
	}
	switch ev.Kind {
	case Press:
		return t.down(w, ev)
	case Drag:
		t.drag(w, ev)
	case Release:
		return t.up(w, ev)
	case Move:
		t.doing = nothing // the button was let go elsewhere
	}
	return Reply{}
}

func (t *Pick) down(w *World, ev Event) Reply {
	t.doing = nothing
	if ev.Right {
		return t.rightDown(w, ev)
	}
	if ev.Clicks == 2 && !ev.Shift && !ev.Alt {
		return t.doubled(w, ev)
	}
	t.press = ev
	if h, ok := t.handle(w, ev.At); ok && !ev.Shift {
		t.hit, t.doing = h, pressed
		return Reply{}
	}
	h, ok := t.under(w, ev)
	t.hit = h
	t.hit.Corner = -1 // handles alone are dragged
	switch {
	case !ok, h.Inside && !ev.Shift && !w.Selection.Has(h.Ref): // a frame can be pulled open in an area
		t.doing = apart
		return Reply{}
	case ev.Shift:
		sel := w.Selection.Toggle(h.Ref)
		return Reply{Select: &sel}
	}
	t.doing = pressed
	if w.Selection.Has(h.Ref) && !ev.Alt {
		return Reply{}
	}
	sel := edit.Select(h.Ref)
	return Reply{Select: &sel}
}

// under is what a click takes: what is on top and not locked or, with Alt, what
// lies under the thing that is selected.
func (t *Pick) under(w *World, ev Event) (aim.Hit, bool) {
	if ev.Alt {
		all := w.Index.Under(ev.At, w.Level, t.within(w))
		for i := range all {
			if i > 0 && w.Selection.Has(all[i-1].Ref) {
				return all[i], true
			}
		}
		if len(all) == 0 {
			return aim.Hit{}, false
		}
		return all[0], true
	}
	return w.Index.At(ev.At, w.Level, t.within(w), loose(w.Site))
}

func (t *Pick) within(w *World) unit.Length { return near * w.View.PerPixel() }

// loose holds for what is no locked underlay.
func loose(s *site.Site) func(edit.Ref) bool {
	return func(r edit.Ref) bool {
		if r.Kind != edit.Underlay {
			return true
		}
		for i := range s.Underlays {
			if u := &s.Underlays[i]; edit.UnderlayRef(u.ID) == r {
				return !u.Locked
			}
		}
		return false
	}
}

// handle is the corner of a selected pipe, lay or area at a place.
func (t *Pick) handle(w *World, at network.Point) (aim.Hit, bool) {
	h, ok := w.Index.At(at, w.Level, t.within(w), func(r edit.Ref) bool {
		return (r.Kind == edit.Pipe || r.Kind == edit.Lay || r.Kind == edit.Area) && w.Selection.Has(r)
	})
	return h, ok && h.Corner >= 0
}

func (t *Pick) rightDown(w *World, ev Event) Reply {
	h, ok := w.Index.At(ev.At, w.Level, t.within(w), nil)
	if !ok || w.Selection.Has(h.Ref) {
		return Reply{}
	}
	sel := edit.Select(h.Ref)
	return Reply{Select: &sel}
}

// doubled adds a corner to a pipe or an area, or takes the one there away.
func (t *Pick) doubled(w *World, ev Event) Reply {
	h, ok := w.Index.At(ev.At, w.Level, t.within(w), loose(w.Site))
	if ok && h.Ref.Kind == edit.Area && !h.Inside {
		id := site.AreaID(h.Ref.ID)
		if h.Corner >= 0 {
			return edited(edit.RemoveAreaCorner(w.Site, id, h.Corner))
		}
		return edited(edit.AddAreaCorner(w.Site, id, h.Leg, h.At))
	}
	if !ok || h.Ref.Kind != edit.Pipe {
		return Reply{}
	}
	id := network.PipeID(h.Ref.ID)
	if h.Corner >= 0 {
		return edited(edit.RemoveCorner(w.Site, id, h.Corner))
	}
	return edited(edit.AddCorner(w.Site, id, h.Leg, h.At))
}

// drag goes on with a drag, or begins one.
func (t *Pick) drag(w *World, ev Event) {
	const least = 4 // pixels; less is a click of an unsteady hand
	if pixels(t.press, ev) < least {
		return
	}
	switch {
	case t.doing == apart:
		t.doing = boxing
	case t.doing == pressed && t.hit.Corner >= 0:
		if b, ok := newBend(w, t.hit); ok {
			t.bend, t.doing = b, bending
		}
	case t.doing == pressed:
		t.load, t.doing = lift(w, t.hit, t.press.At), carrying
	}
}

// crosses reports whether the box was pulled to the left.
func (t *Pick) crosses() bool { return t.at.X < t.press.At.X }

func (t *Pick) up(w *World, ev Event) Reply {
	if ev.Right {
		return Reply{Menu: true}
	}
	did := t.doing
	t.doing = nothing
	switch did {
	case apart:
		if t.hit.Inside {
			sel := edit.Select(t.hit.Ref)
			return Reply{Select: &sel}
		}
		if !t.press.Shift && w.Selection.Len() > 0 {
			return Reply{Select: &edit.Selection{}}
		}
	case pressed:
		if w.Selection.Len() > 1 && t.hit.Corner < 0 {
			sel := edit.Select(t.hit.Ref)
			return Reply{Select: &sel}
		}
	case boxing:
		sel := edit.Select(w.Index.In(t.press.At, t.at, w.Level, t.crosses())...)
		if t.press.Shift {
			sel = w.Selection.With(sel.Refs()...)
		}
		return Reply{Select: &sel}
	case carrying:
		return t.load.put(w, &t.pointer)
	case bending:
		return t.bend.put(w, &t.pointer)
	}
	return Reply{}
}
