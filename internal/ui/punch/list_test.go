package punch

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/ui/look"
	"linemap/internal/unit"
)

// bench is a desk whose news come when a test lets them.
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

func light(dark bool) look.Choice {
	if dark {
		return look.ByNight
	}
	return look.ByDay
}

func shown(t *testing.T, b *bench, dark bool, scale float32) (*List, *[]edit.Ref, fyne.Window) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(&look.Theme{Choice: light(dark), Scale: scale})
	var gone []edit.Ref
	l := New(b.Desk, func(r edit.Ref) { gone = append(gone, r) })
	w := test.NewTempWindow(t, l)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(320, 600))
	return l, &gone, w
}

func TestWorstFirst(t *testing.T) {
	b := newBench(t, "restaurant")
	l, _, _ := shown(t, b, false, 1)
	assert.Contains(t, l.news.Text, "Being checked")
	b.planned()
	require.NotEmpty(t, l.rows)
	for i := 1; i < len(l.rows); i++ {
		assert.LessOrEqual(t, l.rows[i-1].gravity, l.rows[i].gravity)
	}
	assert.False(t, l.news.Visible(), l.news.Text)
	missing := unit.Length(0)
	for _, s := range b.Planning().Plan.Shortfalls {
		missing += s.Length
	}
	assert.Equal(t, unit.US.Length(missing)+" not cleaned, 1 to look at, 1 of advice", l.heading.Text)
}

func TestClickGoesToThePlace(t *testing.T) {
	b := newBench(t, "restaurant")
	l, gone, _ := shown(t, b, false, 1)
	b.planned()
	for i := range l.rows {
		l.list.Select(i)
		if r := l.rows[i].ref; r != (edit.Ref{}) {
			require.NotEmpty(t, *gone)
			assert.Equal(t, r, (*gone)[len(*gone)-1])
			assert.True(t, b.Selection().Has(r))
			l.list.Select(i)
			assert.Equal(t, r, (*gone)[len(*gone)-1], "a second click goes there again")
		}
	}
}

func TestSpotsAreFoundByName(t *testing.T) {
	b := newBench(t, "restaurant")
	l, gone, _ := shown(t, b, false, 1)
	spot := b.Site().Spots[0].ID
	e, err := edit.Change(b.Site(), "change spot", edit.Select(edit.SpotRef(spot)), edit.Changes{Spot: func(v *site.Spot) { v.Uneven = true }})
	require.NoError(t, err)
	b.Do(e)
	b.planned()
	for i, r := range l.rows {
		if strings.Contains(strings.Join(r.body, " "), "uneven") {
			l.list.Select(i)
			assert.Equal(t, edit.SpotRef(spot), (*gone)[len(*gone)-1])
			return
		}
	}
	t.Fatal("no row for the uneven spot")
}

func TestStaleIsSaid(t *testing.T) {
	b := newBench(t, "restaurant")
	l, gone, _ := shown(t, b, false, 1)
	b.planned()
	rows := len(l.rows)
	e, err := edit.Delete(b.Site(), edit.All(b.Site(), b.Level()))
	require.NoError(t, err)
	b.Do(e)
	assert.True(t, l.news.Visible())
	assert.Contains(t, l.news.Text, "Being checked")
	assert.Len(t, l.rows, rows, "what is known stays until it is checked anew")
	for i := range l.rows {
		l.list.Select(i) // what is gone is not gone to
	}
	for _, r := range *gone {
		assert.True(t, r.Kind == edit.Spot || r.Kind == edit.Water || b.Selection().Len() <= 1)
	}
	b.planned()
	assert.NotContains(t, l.news.Text, "Being checked")
	assert.Contains(t, l.heading.Text, "to mend")
}

func TestFilter(t *testing.T) {
	b := newBench(t, "restaurant")
	l, _, _ := shown(t, b, false, 1)
	b.planned()
	assert.Equal(t, []string{"All", "Not cleaned", "To look at", "Advice"}, l.pick.Options)
	l.pick.SetSelected("Not cleaned")
	require.NotEmpty(t, l.shown)
	for _, i := range l.shown {
		assert.Equal(t, short, l.rows[i].gravity)
	}
	l.pick.SetSelected("All")
	assert.Len(t, l.shown, len(l.rows))
}

func TestCureIsOneClick(t *testing.T) {
	b := newBench(t, "restaurant")
	// Without the cleanout on its way, some pipe asks for a new one.
	e, err := edit.Change(b.Site(), "close openings", edit.Select(edit.NodeRef("co-1"), edit.NodeRef("co-2"), edit.NodeRef("co-3"), edit.NodeRef("co-4")),
		edit.Changes{Node: func(n *network.Node) {
			if n.Access != nil {
				n.Access.OutOfService = true
			}
		}})
	require.NoError(t, err)
	b.Do(e)
	l, _, _ := shown(t, b, false, 1)
	b.planned()
	for i, r := range l.rows {
		if r.step == nil {
			continue
		}
		assert.Equal(t, "Add the cleanout", r.step.Say)
		v := newRowView()
		v.show(&l.rows[i], l.lines[i], l.do)
		short := len(b.Planning().Plan.Shortfalls)
		test.Tap(v.button)
		assert.Equal(t, "add cleanout", b.NextUndo())
		b.planned()
		assert.Less(t, len(b.Planning().Plan.Shortfalls), short, "the planner tried it")
		b.Undo()
		return
	}
	t.Fatal("no row offers a cleanout")
}

func TestDecisionsByHandThatBreakARule(t *testing.T) {
	b := newBench(t, "restaurant")
	l, gone, _ := shown(t, b, false, 1)
	b.planned()
	plan := b.Planning().Plan
	key := plan.Keys()[0]
	keep, err := edit.KeepRun(b.Site(), key)
	require.NoError(t, err)
	b.Do(keep)
	shut, err := edit.Change(b.Site(), "change node", edit.Select(edit.NodeRef(key.Access)), edit.Changes{Node: func(n *network.Node) { n.Access.OutOfService = true }})
	require.NoError(t, err)
	b.Do(shut)
	b.planned()
	require.NotEmpty(t, b.Planning().Plan.ByHand.Broken)
	for i := range l.rows {
		if l.rows[i].place != "Decided by hand" {
			continue
		}
		assert.Contains(t, l.rows[i].body[0], "out of service")
		l.list.Select(i)
		assert.Equal(t, edit.PipeRef(key.End), (*gone)[len(*gone)-1])
		require.NotNil(t, l.rows[i].step)
		l.do(l.rows[i].step)
		assert.Equal(t, "free run", b.NextUndo())
		assert.True(t, b.Site().ByHand.IsZero())
		return
	}
	t.Fatal("no row for the run that is kept through an opening out of service")
}

func TestOrderMadeByHand(t *testing.T) {
	b := newBench(t, "restaurant")
	l, _, _ := shown(t, b, false, 1)
	b.planned()
	keys := b.Planning().Plan.Keys()
	slices.Reverse(keys)
	e, err := edit.OrderRuns(b.Site(), keys)
	require.NoError(t, err)
	b.Do(e)
	b.planned()
	for _, r := range l.rows {
		if r.step != nil && r.step.Say == "Leave the order to the planner" {
			l.do(r.step)
			assert.Empty(t, b.Site().ByHand.Order)
			return
		}
	}
	t.Fatal("runs from the top down break no rule")
}

func TestStepThatFails(t *testing.T) {
	b := newBench(t, "restaurant")
	l, _, _ := shown(t, b, false, 1)
	l.do(Mend(b.Desk, route.Cure{Kind: route.NewCleanout, Pipe: "gone"}))
	assert.True(t, l.news.Visible())
	assert.Contains(t, l.news.Text, "Add the cleanout: ")
	assert.Nil(t, Mend(b.Desk, route.Cure{Kind: route.LongerHose}))
}

// TestNothingClips: a row is as high as what is on it, at two sizes of text and
// several widths.
func TestNothingClips(t *testing.T) {
	for _, scale := range []float32{1, 1.5} {
		b := newBench(t, "restaurant")
		l, _, w := shown(t, b, false, scale)
		b.planned()
		for _, width := range []float32{300, 320, 360, 500} {
			w.Resize(fyne.NewSize(width, 600))
			for i, at := range l.shown {
				v := newRowView()
				v.show(&l.rows[at], l.lines[i], l.do)
				h := l.measure.height(&l.rows[at], len(l.lines[i]))
				test.WidgetRenderer(v)
				v.Resize(fyne.NewSize(width, h))
				assert.LessOrEqual(t, v.body.Position().Y+v.body.MinSize().Height, h+theme.InnerPadding())
				assert.LessOrEqual(t, v.body.Position().X+v.body.MinSize().Width, width, "%v", l.lines[i])
				if v.button.Visible() {
					assert.LessOrEqual(t, v.button.Position().Y+v.button.Size().Height, h)
				}
			}
		}
	}
}

func TestWrap(t *testing.T) {
	ten := func(w string) float32 { return float32(len([]rune(w))) }
	assert.Equal(t, []string{"a bc", "def"}, wrap("a bc def", 5, ten))
	assert.Equal(t, []string{"abcde", "fgh i"}, wrap("abcdefgh i", 5, ten))
	assert.Equal(t, []string{"é", "é"}, wrap("éé", 1, ten))
	assert.Equal(t, []string{"a", "b"}, wrap("ab", 0, ten), "too narrow for anything")
	assert.Empty(t, wrap("  ", 5, ten))
}

func TestWrapLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[a-zé ]{0,60}`).Draw(t, "text")
		width := rapid.Float32Range(0, 20).Draw(t, "width")
		lines := wrap(text, width, func(w string) float32 { return float32(len([]rune(w))) })
		strip := func(s string) string { return strings.ReplaceAll(s, " ", "") }
		require.Equal(t, strip(text), strip(strings.Join(lines, "")))
		for _, l := range lines {
			if n := len([]rune(l)); n > 1 {
				require.LessOrEqual(t, float32(n), width)
			}
		}
	})
}

// many fills a list with rows of all gravities.
func many(l *List, n int) {
	l.rows = nil
	for i := range n {
		r := row{gravity: gravity(i * gravities / n), place: fmt.Sprintf("P-%d", i), ref: edit.PipeRef("p011")}
		r.add("The pipe falls less than the code edition asks of 3 in (DN 80) pipe.")
		r.add(fmt.Sprintf("found 1/16 in/ft (0.5 %%), limit 1/8 in/ft (1.0 %%) at %d, by IPC Table 704.1", i))
		r.add("Measure the fall; check your local code. Debris settles there: expect more pulls.")
		l.rows = append(l.rows, r)
	}
	l.fill()
}

func TestManyRowsAreFewObjects(t *testing.T) {
	b := newBench(t, "restaurant")
	l, _, w := shown(t, b, false, 1)
	many(l, 5000)
	objects := strings.Count(test.RenderToMarkup(w.Canvas()), "P-")
	assert.Less(t, objects, 30, "rows are used again")
	l.list.ScrollToBottom()
	assert.Contains(t, test.RenderToMarkup(w.Canvas()), "P-4999")
}

// BenchmarkManyRows is how long it takes to lay out a list of 5,000 rows.
func BenchmarkManyRows(bm *testing.B) {
	test.NewTempApp(bm).Settings().SetTheme(&look.Theme{Choice: look.ByDay, Scale: 1})
	l := New(newBench(bm, "").Desk, func(edit.Ref) {})
	w := test.NewTempWindow(bm, l)
	w.Resize(fyne.NewSize(320, 600))
	for bm.Loop() {
		many(l, 5000)
	}
}
