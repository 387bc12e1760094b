package ui

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// app is Fyne's app for tests, but for its driver.
type app struct {
	fyne.App
	driver *driver
}

func (a *app) Driver() fyne.Driver { return a.driver }

// driver keeps what other goroutines hand to the window until the test takes it:
// the test's goroutine is the only one that touches the window, as the main
// goroutine of the program is.
type driver struct {
	fyne.Driver
	news chan func()
}

func (d *driver) DoFromGoroutine(do func(), wait bool) {
	done := make(chan struct{})
	d.news <- func() {
		defer close(done)
		do()
	}
	if wait {
		<-done
	}
}

// newApp stays the app in force after its test: what still paints beside the window
// then hands its news to a driver that nobody asks any more.
func newApp() *app {
	inner := test.NewApp()
	a := &app{inner, &driver{inner.Driver(), make(chan func(), 1<<16)}}
	fyne.SetCurrentApp(a)
	return a
}

// bench is the window of the program with a test at its keys and its mouse.
type bench struct {
	*Window
	t      testing.TB
	driver *driver
}

// The size of the window, as on a small laptop.
const wide, high = 1280, 800

// newBench opens the window on the welcome.
func newBench(t testing.TB) *bench { return newBenchIn(t, t.TempDir()) }

// newBenchIn opens the window with a folder of the user's own.
func newBenchIn(t testing.TB, folder string) *bench {
	t.Helper()
	a := newApp()
	t.Setenv("LANG", "en_US.UTF-8")
	t.Setenv("LC_ALL", "")
	t.Setenv("LC_MEASUREMENT", "")
	w, err := New(a, Options{Folder: folder})
	require.NoError(t, err)
	b := &bench{w, t, a.driver}
	b.win.Resize(fyne.NewSize(wide, high))
	b.win.Show()
	t.Cleanup(func() {
		b.rest()
		if b.status.told != nil {
			b.status.told.Stop()
		}
		b.rescue.Close()
	})
	b.begin("")
	return b
}

// demo opens the window on a demo site with its plan.
func demo(t testing.TB, name string) *bench {
	b := newBench(t)
	b.openDemo(name)
	b.rest()
	return b
}

// empty opens the window on an empty site in feet.
func empty(t testing.TB) *bench {
	b := newBench(t)
	b.press("New sketch in feet")
	b.rest()
	return b
}

// until takes what comes from other goroutines until something holds.
func (b *bench) until(what string, holds func() bool) {
	b.t.Helper()
	late := time.After(time.Minute)
	for !holds() {
		select {
		case do := <-b.driver.news:
			do()
		case <-time.After(time.Millisecond):
		case <-late:
			require.FailNow(b.t, "never came about", "%s; the window says %q, its dialog %q", what, b.status.said, b.dialogText())
		}
	}
}

// layOut lays the window out anew: the driver for tests does not where the needs of
// a part change, as that of the program does with every frame.
func (b *bench) layOut() {
	size := b.win.Canvas().Size()
	b.win.Resize(size.AddWidthHeight(1, 1))
	b.win.Resize(size)
}

// rest waits for the plan and for the board to be painted.
func (b *bench) rest() {
	b.t.Helper()
	b.until("rest", func() bool {
		return !b.desk.Planning().Running && !b.board.Painting() && len(b.driver.news) == 0
	})
}

// ft is a place in feet east and north.
func ft(x, y float64) network.Point { return network.Point{X: unit.Feet(x), Y: unit.Feet(y)} }

// dot is where a place lies on the board.
func (b *bench) dot(p network.Point) fyne.Position {
	d := b.board.View().Dot(p)
	return fyne.NewPos(float32(d.X), float32(d.Y))
}

func (b *bench) mouse(p network.Point, button desktop.MouseButton, mods fyne.KeyModifier) *desktop.MouseEvent {
	at := b.dot(p)
	return &desktop.MouseEvent{
		PointEvent: fyne.PointEvent{Position: at, AbsolutePosition: b.driver.AbsolutePositionForObject(b.board).Add(at)},
		Button:     button, Modifier: mods,
	}
}

// move, click, right and drag are what the mouse does at places of the ground.
func (b *bench) move(p network.Point) { b.board.MouseMoved(b.mouse(p, 0, 0)) }

func (b *bench) click(p network.Point, mods ...fyne.KeyModifier) {
	var mod fyne.KeyModifier
	for _, m := range mods {
		mod |= m
	}
	b.clickWith(p, desktop.MouseButtonPrimary, mod)
}

func (b *bench) clickWith(p network.Point, button desktop.MouseButton, mod fyne.KeyModifier) {
	b.board.MouseMoved(b.mouse(p, 0, mod))
	b.board.MouseDown(b.mouse(p, button, mod))
	b.board.MouseUp(b.mouse(p, button, mod))
}

func (b *bench) drag(from, to network.Point) {
	b.move(from)
	b.board.MouseDown(b.mouse(from, desktop.MouseButtonPrimary, 0))
	const steps = 5
	start, end := b.dot(from), b.dot(to)
	step := fyne.NewDelta((end.X-start.X)/steps, (end.Y-start.Y)/steps)
	for i := range steps {
		at := start.AddXY(float32(i+1)*step.DX, float32(i+1)*step.DY)
		b.board.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: step})
	}
	b.board.DragEnd()
	b.board.MouseUp(b.mouse(to, desktop.MouseButtonPrimary, 0))
}

// typed types on what has the keys, as the driver does.
func (b *bench) typed(text string) {
	b.t.Helper()
	for _, r := range text {
		if f := b.win.Canvas().Focused(); f != nil {
			f.TypedRune(r)
		} else {
			b.win.Canvas().OnTypedRune()(r)
		}
	}
}

func (b *bench) key(names ...fyne.KeyName) {
	b.t.Helper()
	for _, name := range names {
		if f := b.win.Canvas().Focused(); f != nil {
			f.TypedKey(&fyne.KeyEvent{Name: name})
		} else {
			b.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: name})
		}
	}
}

// command does a command by its menu entry, as a click on it does.
func (b *bench) command(name string) {
	b.t.Helper()
	item := b.menus[name]
	require.NotNil(b.t, item, "no menu entry %q", name)
	require.False(b.t, item.Disabled, "%q cannot be done", name)
	item.Action()
}

// dialog is the dialog or menu on top, nil for none.
func (b *bench) dialog() fyne.CanvasObject { return b.win.Canvas().Overlays().Top() }

// dialogText is all that a dialog says.
func (b *bench) dialogText() string {
	if b.dialog() == nil {
		return ""
	}
	return textOf(b.dialog())
}

// top is what the user can reach: a dialog, else the window.
func (b *bench) top() fyne.CanvasObject {
	if d := b.dialog(); d != nil {
		return d
	}
	return b.win.Content()
}

// press presses the button with a text.
func (b *bench) press(text string) {
	b.t.Helper()
	button := find(b.top(), func(w *widget.Button) bool { return w.Text == text })
	require.NotNil(b.t, button, "no button %q; there is %q", text, textOf(b.top()))
	require.False(b.t, button.Disabled(), "the button %q is grey", text)
	test.Tap(button)
}

// choose chooses an entry of the menu on top.
func (b *bench) choose(name string) {
	b.t.Helper()
	menu := find(b.dialog(), func(*widget.PopUpMenu) bool { return true })
	require.NotNil(b.t, menu, "no menu is open")
	for _, o := range menu.Items {
		item, ok := o.(fyne.Tappable)
		if ok && strings.Contains(textOf(o), name) {
			item.Tapped(&fyne.PointEvent{})
			return
		}
	}
	require.Fail(b.t, "no such menu entry", "%q in %q", name, textOf(menu))
}

// field is what one types into.
type field interface {
	fyne.CanvasObject
	fyne.Focusable
	SetText(string)
	SelectedText() string
}

// entry is the n-th field to type into of the dialog on top.
func (b *bench) entry(n int) field {
	b.t.Helper()
	var all []field
	walk(b.top(), func(o fyne.CanvasObject, _ frame) {
		if e, ok := o.(field); ok {
			all = append(all, e)
		}
	})
	require.Greater(b.t, len(all), n, "fields")
	return all[n]
}

// entryFor is the field with a hint.
func (b *bench) entryFor(hint string) field {
	b.t.Helper()
	e := find(b.top(), func(e field) bool { return textOf(e) == hint })
	require.NotNil(b.t, e, "no field %q", hint)
	return e
}

// bytes is the site as it would be saved.
func (b *bench) bytes() string {
	b.t.Helper()
	data, err := site.Encode(b.desk.Site())
	require.NoError(b.t, err)
	return string(data)
}

// node is the node of the site at a place on a level.
func (b *bench) node(at network.Point, level string) *network.Node {
	b.t.Helper()
	for i := range b.desk.Site().Network.Nodes {
		n := &b.desk.Site().Network.Nodes[i]
		if n.Level == level && n.At.Distance(at) < unit.Inches(0.1) {
			return n
		}
	}
	b.t.Fatalf("no node at %v on %q", at, level)
	return nil
}

// selectOnly selects things.
func (b *bench) selectOnly(refs ...edit.Ref) { b.desk.Select(edit.Select(refs...)) }

// demosShown reports whether the pictures of the demo sites are there.
func demosShown(b *bench) bool {
	left := 3
	walk(b.welcome, func(o fyne.CanvasObject, _ frame) {
		if i, ok := o.(*canvas.Image); ok && i.Image != nil && i.FillMode == canvas.ImageFillContain {
			left--
		}
	})
	return left <= 0
}
