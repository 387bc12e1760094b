package board

import (
	"errors"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/ui/hand"
	"linemap/internal/ui/view"
)

// recorder is a tool that keeps what it is given and answers as it is told.
type recorder struct {
	events []hand.Event
	answer hand.Reply
	ghost  hand.Ghost
	busy   bool
}

func (r *recorder) Name() string                 { return "recorder" }
func (r *recorder) Hint(*hand.World) string      { return "records" }
func (r *recorder) Ghost(*hand.World) hand.Ghost { return r.ghost }
func (r *recorder) Busy() bool                   { return r.busy }
func (r *recorder) last() hand.Event             { return r.events[len(r.events)-1] }
func (r *recorder) kinds() (all []hand.EventKind) {
	for _, e := range r.events {
		all = append(all, e.Kind)
	}
	return all
}

func (r *recorder) Handle(_ *hand.World, ev hand.Event) hand.Reply {
	r.events = append(r.events, ev)
	return r.answer
}

// recorded is a board of a demo with a recorder in hand.
func recorded(t *testing.T) (*bench, *recorder) {
	b, r := demo(t, "restaurant"), new(recorder)
	b.SetTool(r)
	return b, r
}

func TestEventsOfTheMouse(t *testing.T) {
	b, r := recorded(t)
	b.drag(desktop.MouseButtonPrimary, 300, 200, 350, 240)
	assert.Equal(t, []hand.EventKind{hand.Move, hand.Press, hand.Drag, hand.Drag, hand.Drag, hand.Drag, hand.Drag, hand.Release}, r.kinds())
	assert.Equal(t, b.ground(350, 240), r.last().At)
	assert.Equal(t, view.Dot{X: 350, Y: 240}, r.last().Dot)
	b.MouseOut()
	assert.Equal(t, hand.Leave, r.last().Kind)
	_, _, in := b.Pointer()
	assert.False(t, in)

	b.MouseDown(b.mouse(5, 5, desktop.MouseButtonSecondary, fyne.KeyModifierShift|fyne.KeyModifierAlt))
	ev := r.last()
	assert.True(t, ev.Right && ev.Shift && ev.Alt && !ev.Ctrl)
	b.MouseUp(b.mouse(5, 5, desktop.MouseButtonSecondary, fyne.KeyModifierControl))
	assert.True(t, r.last().Right && r.last().Ctrl)

	n := len(r.events)
	b.MouseUp(b.mouse(9, 9, desktop.MouseButtonPrimary, 0))
	b.Dragged(&fyne.DragEvent{PointEvent: at(9, 9)})
	assert.Len(t, r.events, n, "a press that went elsewhere is not the tool's")
}

func TestDoubleClick(t *testing.T) {
	b, r := recorded(t)
	for _, c := range []struct {
		name  string
		after time.Duration
		dx    float32
		want  int
	}{
		{"the first", time.Minute, 0, 1},
		{"soon after", 399 * time.Millisecond, 3, 2},
		{"a third", 300 * time.Millisecond, 0, 3},
		{"too late", 401 * time.Millisecond, 0, 1},
		{"too far", 100 * time.Millisecond, 6, 1},
		{"at the new place", 100 * time.Millisecond, 0, 2},
	} {
		b.clock = b.clock.Add(c.after)
		x := float32(b.pointer.dot.X) + c.dx
		b.MouseDown(b.mouse(x, 50, desktop.MouseButtonPrimary, 0))
		assert.Equal(t, c.want, r.last().Clicks, c.name)
		b.MouseUp(b.mouse(x, 50, desktop.MouseButtonPrimary, 0))
	}
}

func TestKeysGoToTheToolThenToTheWindow(t *testing.T) {
	b, r := recorded(t)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	b.TypedRune('x')
	assert.Equal(t, "Delete", r.events[0].Key)
	assert.Equal(t, 'x', r.events[1].Rune)
	assert.Empty(t, b.keys)
	assert.Empty(t, b.runes)

	r.answer = hand.Reply{Unused: true}
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
	b.TypedRune('p')
	assert.Equal(t, []fyne.KeyName{fyne.KeyF1}, b.keys)
	assert.Equal(t, []rune{'p'}, b.runes)

	n := len(r.events)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	b.TypedRune(' ')
	assert.Len(t, r.events, n, "space moves the board")
	assert.Len(t, b.runes, 1)
	r.busy = true
	assert.True(t, b.AcceptsTab())
	b.TypedRune(' ')
	assert.Equal(t, ' ', r.last().Rune, "but within what is being typed it is a character")
}

func TestModifiersTellTheTool(t *testing.T) {
	b, r := recorded(t)
	b.move(100, 100)
	b.KeyDown(&fyne.KeyEvent{Name: desktop.KeyAltLeft})
	assert.True(t, r.last().Kind == hand.Move && r.last().Alt, "what a click would do may change at once")
	b.KeyUp(&fyne.KeyEvent{Name: desktop.KeyAltLeft})
	assert.False(t, r.last().Alt)
	n := len(r.events)
	b.MouseOut()
	b.KeyDown(&fyne.KeyEvent{Name: desktop.KeyAltLeft})
	b.KeyDown(&fyne.KeyEvent{Name: fyne.KeyQ})
	assert.Len(t, r.events, n+1, "off the board nothing is aimed at")
}

func TestFaultOfAToolIsNotTriedElsewhere(t *testing.T) {
	b, r := recorded(t)
	fault := errors.New("no")
	b.acts.Guard = func(f func()) {
		defer func() { b.acts.Tell(recover().(error)) }()
		f()
		panic(fault)
	}
	r.answer = hand.Reply{Unused: true}
	b.Board.tool = faulty{r, fault}
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
	assert.Equal(t, []error{fault}, b.errs)
	assert.Empty(t, b.keys)
}

type faulty struct {
	*recorder
	err error
}

func (f faulty) Handle(*hand.World, hand.Event) hand.Reply { panic(f.err) }

func TestReplies(t *testing.T) {
	b, r := recorded(t)
	s := b.desk.Site()
	sel := edit.Select(edit.NodeRef(s.Network.Nodes[0].ID))
	e, err := edit.PlaceNote(s, network.Point{}, b.desk.Level(), "mind the step")
	require.NoError(t, err)
	r.answer = hand.Reply{Edit: e, Select: &sel, Tool: hand.NewTape(), Err: errors.New("tell"), Menu: true}
	b.click(200, 100)
	assert.Len(t, s.Notes, 1)
	assert.Equal(t, sel, b.desk.Selection())
	assert.Equal(t, "Tape", b.Tool().Name())
	assert.Equal(t, []error{r.answer.Err}, b.errs)
	inset, _ := b.win.Canvas().InteractiveArea() // the test driver's
	assert.Equal(t, fyne.NewPos(200, 100), b.menus[0].Add(inset))
}

// field is the field that a tool asked for.
func (b *bench) field() *question {
	b.t.Helper()
	top := b.win.Canvas().Overlays().Top()
	require.NotNil(b.t, top)
	entry, ok := top.(*widget.PopUp).Content.(*question)
	require.True(b.t, ok)
	return entry
}

func TestAsk(t *testing.T) {
	b := demo(t, "restaurant")
	notes := len(b.desk.Site().Notes)
	b.SetTool(hand.NewNote())
	b.click(700, 400)
	entry := b.field()
	assert.Equal(t, "What the note says", entry.PlaceHolder)
	assert.Same(t, entry, b.win.Canvas().Focused(), "one can type at once")
	test.Type(entry, "Gate is locked")
	entry.OnSubmitted(entry.Text)
	assert.Nil(t, b.win.Canvas().Overlays().Top())
	assert.Same(t, b.Board, b.win.Canvas().Focused(), "the keys are the board's again")
	require.Len(t, b.desk.Site().Notes, notes+1)
	note := b.desk.Site().Notes[notes]
	assert.Equal(t, "Gate is locked", note.Text)
	d := b.view.Dot(note.At)
	assert.InDelta(t, 700, d.X, 20, "where the click was, or near it where it snapped")
	assert.InDelta(t, 400, d.Y, 20)
}

// The driver of a real window takes the keys from a field that a click has opened
// and that does not lie under it.
func TestTheQuestionLiesUnderThePointer(t *testing.T) {
	b := demo(t, "restaurant")
	size := b.Size()
	for _, at := range []fyne.Position{{X: 300, Y: 200}, {X: 8, Y: 8}, {X: size.Width - 8, Y: size.Height - 8}} {
		b.SetTool(hand.NewNote())
		b.click(at.X, at.Y)
		click := fyne.CurrentApp().Driver().AbsolutePositionForObject(b).Add(at)
		corner := fyne.CurrentApp().Driver().AbsolutePositionForObject(b.field())
		in := click.Subtract(corner)
		assert.True(t, in.X >= 0 && in.Y >= 0 && in.X < b.field().Size().Width && in.Y < b.field().Size().Height,
			"%v: the field is at %v, %v large", click, corner, b.field().Size())
		b.field().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	}
}

func TestEscapeTakesTheQuestionBack(t *testing.T) {
	b := demo(t, "restaurant")
	notes := len(b.desk.Site().Notes)
	b.SetTool(hand.NewNote())
	b.click(700, 400)
	test.Type(b.field(), "Gate")
	b.field().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.Nil(t, b.win.Canvas().Overlays().Top())
	assert.Same(t, b.Board, b.win.Canvas().Focused())
	assert.Len(t, b.desk.Site().Notes, notes)
	assert.Equal(t, "Note", b.Tool().Name(), "the tool stays in hand")
}

func TestAskIsForgottenWithTheSite(t *testing.T) {
	b := demo(t, "restaurant")
	b.SetTool(hand.NewNote())
	b.click(700, 400)
	entry := b.field()
	require.NoError(t, b.desk.OpenDemo("flats"))
	assert.Nil(t, b.win.Canvas().Overlays().Top(), "what it was about is gone")
	assert.Equal(t, "Pick", b.Tool().Name())
	notes := len(b.desk.Site().Notes)
	entry.OnSubmitted("late")
	assert.Len(t, b.desk.Site().Notes, notes)
}

func TestClickTakesTheKeys(t *testing.T) {
	b := demo(t, "restaurant")
	assert.Nil(t, b.win.Canvas().Focused())
	b.click(10, 10)
	assert.Same(t, b.Board, b.win.Canvas().Focused())
}

// Objects over the bitmap are used again, and what is not used is hidden.
func TestOverlayHidesWhatIsUnused(t *testing.T) {
	b, r := recorded(t)
	shown := func() (n int) {
		for _, o := range b.layer.objects {
			if o.Visible() {
				n++
			}
		}
		return n
	}
	b.MouseOut()
	idle := shown()
	net := &b.desk.Site().Network
	a, c := net.Nodes[0].At, net.Nodes[1].At
	r.ghost = hand.Ghost{
		Lines: []hand.Line{{Points: []network.Point{a, c, a}, Kind: hand.NewPipe}},
		Marks: []hand.Mark{{At: a, Kind: hand.Hover}, {At: a, Kind: hand.Handle}},
		Texts: []hand.Text{{At: a, S: "12 ft"}},
		Box:   &[2]network.Point{a, c},
	}
	b.move(5, 5)
	assert.Equal(t, idle+2+2+2+1, shown(), "two strokes, two marks, a text on its plate and a frame")
	all := len(b.layer.objects)
	for range 5 {
		b.move(6, 6)
	}
	assert.Len(t, b.layer.objects, all, "none is made anew")
	r.ghost = hand.Ghost{}
	b.move(7, 7)
	assert.Equal(t, idle, shown())

	b.desk.Select(edit.All(b.desk.Site(), b.desk.Level()))
	assert.Greater(t, shown(), idle)
	b.desk.Select(edit.Selection{})
	assert.Equal(t, idle, shown())

	b.Play(Played{Hose: []network.Point{a, c}, Lay: []network.Point{c, a}, Label: "60 ft"})
	assert.Greater(t, shown(), idle)
	b.Play(Played{})
	assert.Equal(t, idle, shown())
	for _, o := range b.layer.objects[2:] {
		if o.Visible() {
			p, s := o.Position(), o.Size()
			assert.True(t, p.X >= -40 && p.Y >= -40 && p.X+s.Width <= wide+40 && p.Y+s.Height <= high+40, "%T at %v", o, p)
		}
	}
}

func TestRunIsLit(t *testing.T) {
	b := demo(t, "restaurant")
	b.rest()
	require.NotNil(t, b.desk.Planning().Plan)
	lines := func() (n int) {
		for _, l := range b.layer.lines.all {
			if l.Visible() && l.StrokeWidth == 15 {
				n++
			}
		}
		return n
	}
	assert.Zero(t, lines())
	b.Light(1)
	assert.Positive(t, lines())
	b.Light(999)
	assert.Zero(t, lines(), "a run that is not there")
}

// What is selected is marked where it is, also after an edit moved it.
func TestSelectionFollowsTheSite(t *testing.T) {
	b := demo(t, "restaurant")
	node := b.desk.Site().Network.Nodes[0]
	sel := edit.Select(edit.NodeRef(node.ID))
	b.desk.Select(sel)
	disc := func() fyne.Position {
		for _, c := range b.layer.discs.all {
			if c.Visible() {
				return c.Position().AddXY(c.Size().Width/2, c.Size().Height/2)
			}
		}
		t.Fatal("no disc")
		return fyne.Position{}
	}
	is := func(p network.Point) {
		t.Helper()
		d := b.view.Dot(p)
		assert.InDelta(t, d.X, disc().X, 0.1)
		assert.InDelta(t, d.Y, disc().Y, 0.1)
	}
	is(node.At)
	e, err := edit.Move(b.desk.Site(), sel, network.Point{X: 1, Y: -2})
	require.NoError(t, err)
	b.desk.Do(e)
	is(b.desk.Site().Network.Nodes[0].At)
	assert.NotEqual(t, node.At, b.desk.Site().Network.Nodes[0].At)
	b.desk.Undo()
	is(node.At)
}

func TestPicturesAreOfTheSiteAsItStood(t *testing.T) {
	b := demo(t, "restaurant")
	before := b.shown
	e, err := edit.PlaceNote(b.desk.Site(), b.ground(200, 200), b.desk.Level(), "new")
	require.NoError(t, err)
	b.desk.Do(e)
	assert.Same(t, before, b.shown, "until the new one is there the old one stays")
	b.rest()
	assert.NotSame(t, before, b.shown)
	assert.NotEqual(t, before.img.Pix, b.shown.img.Pix)
	b.ShowPlan(false)
	b.rest()
	assert.Nil(t, b.shown.job.plan)
	b.desk.SetGrid(desk.Grid{})
	b.rest()
	assert.False(t, b.shown.job.grid)
}

func TestFaultInPaintingIsTold(t *testing.T) {
	b := demo(t, "restaurant")
	shown := b.shown
	j := *b.asked
	j.site = nil
	b.painter.paint(&j)
	b.rest()
	require.Len(t, b.errs, 1)
	assert.ErrorContains(t, b.errs[0], "a fault in drawing the board")
	assert.Same(t, shown, b.shown)
}
