package ui

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// do carries an edit out, or tells why it cannot be done.
func (w *Window) do(e *edit.Edit, err error) bool {
	if err != nil {
		w.tell(err)
		return false
	}
	w.desk.Do(e)
	return true
}

func (w *Window) undo() { w.said("Undone: ", w.desk.Undo()) }
func (w *Window) redo() { w.said("Done again: ", w.desk.Redo()) }

func (w *Window) said(what, name string) {
	if name != "" {
		w.status.note(what + name)
	}
}

func (w *Window) delete() { w.do(edit.Delete(w.desk.Site(), w.desk.Selection())) }

// copy puts what is selected on the system's clipboard, as text.
func (w *Window) copy() {
	clip := edit.Copy(w.desk.Site(), w.desk.Selection())
	text, err := clip.Text()
	if err != nil {
		w.tell(err)
		return
	}
	w.app.Clipboard().SetContent(text)
	w.status.note("Copied " + unit.Count(w.desk.Selection().Len(), "thing"))
}

func (w *Window) cut() {
	w.copy()
	w.delete()
}

// paste puts what is on the clipboard where the pointer is, else in the middle
// of the board.
func (w *Window) paste() {
	clip, err := edit.ClipFromText(w.app.Clipboard().Content())
	if err != nil {
		w.tell(err)
		return
	}
	at, _, in := w.board.Pointer()
	if !in {
		at = w.board.View().Centre
	}
	w.do(edit.Paste(w.desk.Site(), clip, at, w.desk.Level()))
}

// duplicate puts a copy beside what is selected.
func (w *Window) duplicate() {
	step := 2 * w.board.View().Grid(w.units()).Step
	w.do(edit.Duplicate(w.desk.Site(), w.desk.Selection(), network.Point{X: step, Y: -step}))
}

func (w *Window) selectAll() { w.desk.Select(edit.All(w.desk.Site(), w.desk.Level())) }

func (w *Window) selectSame() {
	w.grow(func(r edit.Ref) edit.Selection { return edit.SameKind(w.desk.Site(), r) })
}

func (w *Window) selectBranch(upstream bool) {
	w.grow(func(r edit.Ref) edit.Selection { return edit.Branch(w.desk.Graph(), r, upstream) })
}

// grow selects more, starting from each thing selected.
func (w *Window) grow(more func(edit.Ref) edit.Selection) {
	all := w.desk.Selection()
	for _, r := range w.desk.Selection().Refs() {
		all = all.With(more(r).Refs()...)
	}
	w.desk.Select(all)
}

// middle is the middle of what is selected.
func (w *Window) middle() network.Point {
	low, high := network.Bounds(edit.Places(w.desk.Site(), w.desk.Selection()))
	return network.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
}

// turn turns what is selected about its middle, counterclockwise.
func (w *Window) turn(degrees float64) {
	w.do(edit.Rotate(w.desk.Site(), w.desk.Selection(), w.middle(), unit.Degrees(degrees)))
}

func (w *Window) turnDialog() {
	entry := w.newEntry("")
	entry.SetPlaceHolder("22.5")
	entry.Validator = func(s string) error {
		_, err := degrees(s)
		return err
	}
	d := dialog.NewForm("Turn by how many degrees?", "Turn", "Go back",
		[]*widget.FormItem{{Text: "To the left", Widget: entry, HintText: "a minus turns right"}},
		func(ok bool) {
			if v, err := degrees(entry.Text); ok && err == nil {
				w.guard(func() { w.turn(v) })()
			}
		}, w.win)
	d.Resize(fyne.NewSize(360, 190))
	d.Show()
	w.win.Canvas().Focus(entry)
}

func degrees(s string) (float64, error) {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || v < -360 || v > 360 {
		return 0, fmt.Errorf("%q is no number of degrees from -360 to 360", s)
	}
	return v, nil
}

// mirror mirrors what is selected about a line through its middle: upright, or
// level.
func (w *Window) mirror(level bool) {
	a := w.middle()
	b := a
	if level {
		b.X += unit.Metres(1)
	} else {
		b.Y += unit.Metres(1)
	}
	w.do(edit.Mirror(w.desk.Site(), w.desk.Selection(), a, b))
}

func (w *Window) reverse() { w.do(edit.Reverse(w.desk.Site(), w.desk.Selection())) }

// splitPipe splits the one pipe that is selected in its middle.
func (w *Window) splitPipe() {
	refs := w.desk.Selection().Refs()
	if len(refs) != 1 || refs[0].Kind != edit.Pipe {
		w.tell(errors.New("select one pipe to split it"))
		return
	}
	w.do(edit.HalvePipe(w.desk.Site(), network.PipeID(refs[0].ID)))
}

// join joins the two ends that are selected.
func (w *Window) join() {
	var nodes []network.NodeID
	for _, r := range w.desk.Selection().Refs() {
		if r.Kind == edit.Node {
			nodes = append(nodes, network.NodeID(r.ID))
		}
	}
	if len(nodes) != 2 {
		w.tell(errors.New("select the two ends to join, and nothing else"))
		return
	}
	w.do(edit.JoinEnds(w.desk.Site(), nodes[0], nodes[1]))
}

func (w *Window) moveToLevelItems() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	if w.desk.Selection().Len() == 0 {
		return nil
	}
	for _, l := range w.desk.Site().Network.Levels {
		items = append(items, fyne.NewMenuItem(l.Name, w.guard(func() {
			if w.do(edit.MoveToLevel(w.desk.Site(), w.desk.Selection(), l.Name)) {
				chosen := w.desk.Selection()
				w.desk.SetLevel(l.Name)
				w.desk.Select(chosen)
			}
		})))
	}
	return items
}

func (w *Window) zoomToSelection() { w.board.ZoomTo(w.desk.Selection().Refs()...) }

// stepLevel shows the next level up or down.
func (w *Window) stepLevel(by int) {
	levels := slices.Clone(w.desk.Site().Network.Levels)
	slices.SortStableFunc(levels, func(a, b network.Level) int { return cmp.Compare(a.Elevation, b.Elevation) })
	i := slices.IndexFunc(levels, func(l network.Level) bool { return l.Name == w.desk.Level() })
	if k := i + by; i >= 0 && k >= 0 && k < len(levels) {
		w.desk.SetLevel(levels[k].Name)
	}
}

func (w *Window) toggleGrid() {
	g := w.desk.Grid()
	w.desk.SetGrid(desk.Grid{Shown: !g.Shown, Snap: g.Snap})
}

func (w *Window) toggleSnap() {
	g := w.desk.Grid()
	w.desk.SetGrid(desk.Grid{Shown: g.Shown, Snap: !g.Snap})
}
