package form

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/ui/look"
	"linemap/internal/unit"
)

// bench is a desk with its news in a queue, so that a test decides when they
// come.
type bench struct {
	*desk.Desk
	t    testing.TB
	news chan func()
}

func newBench(t testing.TB, demo string) *bench {
	t.Helper()
	tables, err := site.LoadTables()
	require.NoError(t, err)
	b := &bench{t: t, news: make(chan func(), 10000)}
	b.Desk, err = desk.New(tables, unit.US, func(f func()) { b.news <- f })
	require.NoError(t, err)
	if demo != "" {
		require.NoError(t, b.OpenDemo(demo))
	}
	return b
}

// planned waits for the plan of the sketch as it stands.
func (b *bench) planned() {
	b.t.Helper()
	for b.Planning().Running {
		select {
		case f := <-b.news:
			f()
		case <-time.After(time.Minute):
			b.t.Fatal("no plan after a minute")
		}
	}
}

func (b *bench) node(id string) *network.Node {
	b.t.Helper()
	for i := range b.Site().Network.Nodes {
		if n := &b.Site().Network.Nodes[i]; string(n.ID) == id {
			return n
		}
	}
	b.t.Fatalf("no node %q", id)
	return nil
}

func (b *bench) pipe(id string) *network.Pipe {
	b.t.Helper()
	for i := range b.Site().Network.Pipes {
		if p := &b.Site().Network.Pipes[i]; string(p.ID) == id {
			return p
		}
	}
	b.t.Fatalf("no pipe %q", id)
	return nil
}

// shown is a card in a window of its width, in our own look.
func shown(t *testing.T, b *bench, dark bool, scale float32, sel ...edit.Ref) (*Card, fyne.Window) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(&look.Theme{Choice: light(dark), Scale: scale})
	c := New(b.Desk, func(err error) { t.Errorf("told: %v", err) })
	w := test.NewTempWindow(t, c)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(320, 700))
	b.Select(edit.Select(sel...))
	return c, w
}

func light(dark bool) look.Choice {
	if dark {
		return look.ByNight
	}
	return look.ByDay
}

// lineOf is the line of a card or sheet with a label.
type anyLine interface {
	labelled() string
	in() input
	wrong() string
	visible() bool
}

func (l *line[T]) labelled() string { return l.field.label }
func (l *line[T]) in() input        { return l.input }
func (l *line[T]) visible() bool    { return l.row.Visible() }
func (l *line[T]) wrong() string {
	if !l.fault.Visible() {
		return ""
	}
	return l.fault.Text
}

func linesOf[T any](s *sheet[T]) map[string]anyLine {
	all := map[string]anyLine{}
	for _, l := range s.lines {
		all[l.labelled()] = l
	}
	return all
}

// cardLines are the lines of what a card shows.
func cardLines(t *testing.T, c *Card) map[string]anyLine {
	t.Helper()
	switch p := c.sheets[c.kind].(type) {
	case *kindPart[network.Node]:
		return linesOf(p.sheet)
	case *kindPart[network.Pipe]:
		return linesOf(p.sheet)
	case *kindPart[site.Spot]:
		return linesOf(p.sheet)
	case *kindPart[site.WaterPoint]:
		return linesOf(p.sheet)
	case *kindPart[site.Lay]:
		return linesOf(p.sheet)
	case *kindPart[site.Area]:
		return linesOf(p.sheet)
	case *kindPart[site.Note]:
		return linesOf(p.sheet)
	case *kindPart[site.Underlay]:
		return linesOf(p.sheet)
	case *summary:
		return linesOf(p.sheet)
	}
	t.Fatalf("no sheet of %q", c.kind)
	return nil
}

func entryOf(t *testing.T, l anyLine) *entry {
	t.Helper()
	in, ok := l.in().(*typedInput)
	require.True(t, ok, "%q is typed", l.labelled())
	return in.entry
}

// fill focuses an entry, types in place of what is there and presses Enter.
func fill(t *testing.T, w fyne.Window, e *entry, text string) {
	t.Helper()
	retype(w, e, text)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// retype focuses an entry and types in place of what is there.
func retype(w fyne.Window, e *entry, text string) {
	w.Canvas().Focus(e)
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
	for _, r := range text {
		e.TypedRune(r)
	}
}

func listOf(t *testing.T, l anyLine) *widget.Select {
	t.Helper()
	in, ok := l.in().(*chosenInput)
	require.True(t, ok, "%q is chosen", l.labelled())
	return in.list
}

func boxOf(t *testing.T, l anyLine) *widget.Check {
	t.Helper()
	in, ok := l.in().(*tickedInput)
	require.True(t, ok, "%q is ticked", l.labelled())
	return in.box
}
