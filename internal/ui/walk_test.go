package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

// frame is where an object lies on the canvas, and the room that it must keep
// to.
type frame struct {
	at     fyne.Position
	size   fyne.Size
	within rect
	path   string // the types that it lies in, for messages
}

type rect struct{ x0, y0, x1, y1 float32 }

func (r rect) and(o rect) rect {
	return rect{max(r.x0, o.x0), max(r.y0, o.y0), min(r.x1, o.x1), min(r.y1, o.y1)}
}

const endless = 1e6

// walk visits what is visible of an object, from the outside in. What lies in a
// scroller may be longer than it in the way that it scrolls.
func walk(o fyne.CanvasObject, visit func(fyne.CanvasObject, frame)) {
	walkIn(o, o.Position(), rect{-endless, -endless, endless, endless}, "", visit)
}

func walkIn(o fyne.CanvasObject, at fyne.Position, within rect, path string, visit func(fyne.CanvasObject, frame)) {
	if !o.Visible() {
		return
	}
	path += "/" + strings.TrimPrefix(fmt.Sprintf("%T", o), "*")
	size := o.Size()
	visit(o, frame{at, size, within, path})
	var parts []fyne.CanvasObject
	room := within
	if !size.IsZero() { // Fyne gives the title of a dialog no size of its own
		room = within.and(rect{at.X, at.Y, at.X + size.Width, at.Y + size.Height})
	}
	switch v := o.(type) {
	case *fyne.Container:
		parts = v.Objects
	case fyne.Widget:
		parts = test.WidgetRenderer(v).Objects()
	}
	if s, ok := o.(*container.Scroll); ok {
		if s.Direction != container.ScrollHorizontalOnly {
			room.y0, room.y1 = -endless, endless
		}
		if s.Direction != container.ScrollVerticalOnly {
			room.x0, room.x1 = -endless, endless
		}
	}
	for _, p := range parts {
		if p != nil {
			walkIn(p, at.Add(p.Position()), room, path, visit)
		}
	}
}

// find is the first visible part of a kind for which is holds.
func find[T fyne.CanvasObject](in fyne.CanvasObject, is func(T) bool) (found T) {
	if in == nil {
		return found
	}
	done := false
	walk(in, func(o fyne.CanvasObject, _ frame) {
		if w, ok := o.(T); ok && !done && is(w) {
			found, done = w, true
		}
	})
	return found
}

// textOf is all that can be read of an object.
func textOf(in fyne.CanvasObject) string {
	var words []string
	walk(in, func(o fyne.CanvasObject, _ frame) {
		if v, ok := o.(*canvas.Text); ok && v.Text != "" {
			words = append(words, v.Text)
		}
	})
	return strings.Join(words, " ")
}
