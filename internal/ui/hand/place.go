package hand

import (
	"strings"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
)

// Place places one thing with every click.
type Place struct {
	pointer
	name, hint string
	// bare things stand on the ground: no joint and no pipe draws them.
	bare bool
	// place answers a click.
	place func(w *World, at edit.Anchor) Reply
}

// Name is the name that the kit shows.
func (t *Place) Name() string { return t.name }

// Busy is false: a click is the whole of it.
func (t *Place) Busy() bool { return false }

// Hint says what the next click does.
func (t *Place) Hint(*World) string { return t.hint }

// Handle takes one event.
func (t *Place) Handle(w *World, ev Event) Reply {
	ev, used := t.follow(w, ev)
	switch {
	case used:
		return Reply{}
	case ev.Kind == Key && ev.Key == "Escape":
		return Reply{Tool: NewPick()}
	case ev.Kind == Key && enters(ev) && t.in, ev.Kind == Press && !ev.Right && ev.Clicks < 2:
		return t.place(w, t.target(w).Anchor)
	case ev.Kind == Key, ev.Kind == Rune:
		return Reply{Unused: true}
	}
	return Reply{}
}

func (t *Place) target(w *World) aim.Aim {
	s := t.sight(w)
	s.Bare = t.bare
	return w.Index.Snap(s)
}

// Ghost shows where a click would place what.
func (t *Place) Ghost(w *World) Ghost {
	var g Ghost
	if t.in {
		a := t.target(w)
		g.show(w, a)
		g.Texts = []Text{{a.At(), strings.ToLower(t.name)}}
	}
	return g
}

// The hints of the kinds of thing that are placed.
const (
	onLine   = "Click a pipe to put it in line, a free end to put it there, or beside the pipes. Return places it too."
	atEnd    = "Click a free end to put it there, or where a pipe will end. Return places it too."
	onGround = "Click where it is. Return places it too."
)

func access(name string, kind network.AccessKind) func() Tool {
	hint := onLine
	if kind == network.PulledFixture {
		hint = "Click the fixture that is pulled, a free end, or beside the pipes. Return places it too."
	}
	return func() Tool {
		return &Place{name: name, hint: hint, place: func(w *World, at edit.Anchor) Reply {
			return edited(edit.PlaceAccess(w.Site, at, kind, w.Style))
		}}
	}
}

func node(name string, kind network.NodeKind) func() Tool {
	hint := atEnd
	switch kind {
	case network.KindTrap, network.KindBackwater, network.KindReducer:
		hint = onLine
	}
	return func() Tool {
		return &Place{name: name, hint: hint, place: func(w *World, at edit.Anchor) Reply {
			return edited(edit.PlaceNode(w.Site, at, kind, w.Style))
		}}
	}
}

func water(name string, kind site.WaterKind) func() Tool {
	return func() Tool {
		return &Place{name: name, hint: onGround, bare: true, place: func(w *World, at edit.Anchor) Reply {
			return edited(edit.PlaceWater(w.Site, at.At, kind))
		}}
	}
}

// NewSpot returns the tool that places spots for the trailer.
func NewSpot() *Place {
	return &Place{name: "Spot", hint: "Click where the trailer can stand. Return places it too.", bare: true, place: func(w *World, at edit.Anchor) Reply {
		return edited(edit.PlaceSpot(w.Site, at.At))
	}}
}

// NewNote returns the tool that places notes. It asks for what they say.
func NewNote() *Place {
	return &Place{name: "Note", hint: "Click where the note stands, and type what it says.", bare: true, place: func(w *World, at edit.Anchor) Reply {
		return Reply{Ask: "What the note says", Answer: func(text string) Reply {
			if text = strings.TrimSpace(text); text == "" {
				return Reply{}
			}
			return edited(edit.PlaceNote(w.Site, at.At, at.Level, text))
		}}
	}}
}

// NewStack returns the tool that places stacks from the level drawn on to
// another. Without a name it is the other one of two.
func NewStack(to string) *Place {
	return &Place{name: StackName, hint: "Click where the stack stands: it joins what is there on both levels. Return places it too.", place: func(w *World, at edit.Anchor) Reply {
		level := to
		if levels := w.Site.Network.Levels; level == "" && len(levels) == 2 {
			level = levels[0].Name
			if level == w.Level {
				level = levels[1].Name
			}
		}
		return edited(edit.PlaceStack(w.Site, at, level, w.Style))
	}}
}
