package hand

import (
	"errors"
	"fmt"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/site/picture"
	"linemap/internal/ui/aim"
	"linemap/internal/unit"
)

// Scale scales a picture under the drawing: two clicks on places of it, and how
// far apart they are in truth.
type Scale struct {
	pointer
	id    site.UnderlayID
	first *network.Point
}

// NewScale returns the tool that scales an underlay. Without an ID it is the one
// that is selected, else the only one of the level.
func NewScale(id site.UnderlayID) *Scale { return &Scale{id: id} }

// Name is the name that the kit shows.
func (t *Scale) Name() string { return "Scale floor plan" }

// Busy reports whether the first place is clicked.
func (t *Scale) Busy() bool { return t.first != nil }

// Hint says what the next click does.
func (t *Scale) Hint(*World) string {
	if t.Busy() {
		return "Click the other end of the length that you know, and type it."
	}
	return "Click one end of a length on the floor plan that you know: a wall, a dimension."
}

var errNoPicture = errors.New("pick the floor plan to scale first")

// Handle takes one event.
func (t *Scale) Handle(w *World, ev Event) Reply {
	ev, used := t.follow(w, ev)
	switch {
	case used:
	case ev.Kind == Press && !ev.Right && ev.Clicks < 2:
		return t.put(w)
	case ev.Kind == Key && ev.Key == "Escape" && !t.Busy():
		return Reply{Tool: NewPick()}
	case ev.Kind == Key && t.Busy() && (ev.Key == "Escape" || ev.Key == "BackSpace"):
		t.first = nil
	case ev.Kind == Key, ev.Kind == Rune:
		return Reply{Unused: true}
	}
	return Reply{}
}

func (t *Scale) put(w *World) Reply {
	id, ok := t.underlay(w)
	switch {
	case !ok:
		return Reply{Err: errNoPicture}
	case !t.Busy():
		at := t.at
		t.first = &at
		return Reply{}
	}
	first, second := *t.first, t.at
	drawn := first.Distance(second)
	if drawn < w.View.PerPixel() {
		return Reply{Err: errors.New("the two places are one: click the other end of the length")}
	}
	t.first = nil
	return Reply{
		Ask: fmt.Sprintf("True length (now %s)", w.Site.Units.Footage(drawn)),
		Answer: func(text string) Reply {
			long, err := typedLength(text, w.Site.Units)
			if err != nil {
				return Reply{Err: err}
			}
			r := edited(scaled(w.Site, id, first, second, long))
			if r.Err == nil {
				r.Tool = NewPick()
			}
			return r
		},
	}
}

// scaled makes the places of a picture that lie at a and b a real distance apart.
func scaled(s *site.Site, id site.UnderlayID, a, b network.Point, real unit.Length) (*edit.Edit, error) {
	for i := range s.Underlays {
		if s.Underlays[i].ID != id {
			continue
		}
		to, err := picture.Rescale(s.Underlays[i], a, b, real)
		if err != nil {
			return nil, err
		}
		return edit.Change(s, "scale picture", edit.Select(edit.UnderlayRef(id)), edit.Changes{Underlay: func(u *site.Underlay) { *u = to }})
	}
	return nil, errNoPicture
}

// underlay is the picture that is scaled.
func (t *Scale) underlay(w *World) (site.UnderlayID, bool) {
	var on, chosen []site.UnderlayID
	for i := range w.Site.Underlays {
		u := &w.Site.Underlays[i]
		if u.ID == t.id {
			return t.id, true
		}
		if !u.Hidden && (u.Level == w.Level || u.Level == "") {
			on = append(on, u.ID)
		}
		if w.Selection.Has(edit.UnderlayRef(u.ID)) {
			chosen = append(chosen, u.ID)
		}
	}
	switch {
	case len(chosen) == 1:
		return chosen[0], true
	case len(on) == 1:
		return on[0], true
	}
	return "", false
}

// Ghost shows the length between the places as it is now.
func (t *Scale) Ghost(w *World) Ghost {
	var g Ghost
	if !t.in {
		return g
	}
	g.show(w, aim.Aim{Anchor: edit.Anchor{At: t.at}})
	if t.Busy() {
		g.Lines = append(g.Lines, Line{[]network.Point{*t.first, t.at}, Guideline})
		g.Marks = append(g.Marks, Mark{*t.first, Corner})
		g.Texts = []Text{{t.at, "now " + w.Site.Units.Footage(t.first.Distance(t.at))}}
	}
	return g
}
