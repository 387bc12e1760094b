package form

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/look"
	"linemap/internal/unit"
)

// windowOf is a window of a laptop's size in our own look.
func windowOf(t *testing.T) fyne.Window {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(&look.Theme{Choice: look.ByDay, Scale: 1})
	w := test.NewTempWindow(t, widget.NewLabel(""))
	w.Resize(fyne.NewSize(1280, 800))
	return w
}

// see walks all that is shown in the topmost dialog.
func see(w fyne.Window, do func(fyne.CanvasObject)) {
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		do(o)
		switch o := o.(type) {
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case *container.AppTabs:
			for _, item := range o.Items {
				walk(item.Content)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c)
			}
		}
	}
	if top := w.Canvas().Overlays().Top(); top != nil {
		walk(top)
	}
}

// rowsSeen finds the rows of forms in the topmost dialog: inputs by label, and
// what is wrong with them.
func rowsSeen(w fyne.Window) (inputs map[string]fyne.CanvasObject, wrong map[string]string) {
	inputs, wrong = map[string]fyne.CanvasObject{}, map[string]string{}
	see(w, func(o fyne.CanvasObject) {
		c, ok := o.(*fyne.Container)
		if !ok {
			return
		}
		if _, row := c.Layout.(*rowLayout); !row {
			return
		}
		label := c.Objects[0].(*widget.Label).Text
		if box, ok := c.Objects[1].(*widget.Check); ok {
			label = box.Text
		}
		inputs[label] = c.Objects[1]
		if f := c.Objects[2].(*widget.Label); f.Visible() {
			wrong[label] = f.Text
		}
	})
	return inputs, wrong
}

func press(t *testing.T, w fyne.Window, word string) {
	t.Helper()
	var found *widget.Button
	see(w, func(o fyne.CanvasObject) {
		if b, ok := o.(*widget.Button); ok && b.Text == word && found == nil {
			found = b
		}
	})
	require.NotNil(t, found, "button %q", word)
	test.Tap(found)
}

// turnTo opens a tab of the topmost dialog.
func turnTo(t *testing.T, w fyne.Window, tab string) {
	t.Helper()
	done := false
	see(w, func(o fyne.CanvasObject) {
		if tabs, ok := o.(*container.AppTabs); ok {
			for i, item := range tabs.Items {
				if item.Text == tab {
					tabs.SelectIndex(i)
					done = true
				}
			}
		}
	})
	require.True(t, done, "tab %q", tab)
}

func typeIn(t *testing.T, w fyne.Window, label, text string) string {
	t.Helper()
	in, _ := rowsSeen(w)
	e, ok := in[label].(*entry)
	require.True(t, ok, "entry %q among %d", label, len(in))
	fill(t, w, e, text)
	_, wrong := rowsSeen(w)
	return wrong[label]
}

func choose(t *testing.T, w fyne.Window, label, word string) string {
	t.Helper()
	in, _ := rowsSeen(w)
	l, ok := in[label].(*widget.Select)
	require.True(t, ok, "list %q", label)
	require.Contains(t, l.Options, word)
	l.SetSelected(word)
	_, wrong := rowsSeen(w)
	return wrong[label]
}

// undone takes everything back and holds the bytes against those before.
func undone(t *testing.T, b *bench, before []byte) {
	t.Helper()
	for b.NextUndo() != "" {
		b.Undo()
	}
	after, err := site.Encode(b.Site())
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}

func encoded(t *testing.T, b *bench) []byte {
	t.Helper()
	data, err := site.Encode(b.Site())
	require.NoError(t, err)
	return data
}

func TestJobForm(t *testing.T) {
	b, w := newBench(t, "restaurant"), windowOf(t)
	before := encoded(t, b)
	JobForm(b.Desk, w)
	assert.Empty(t, typeIn(t, w, "Title", "Another title"))
	assert.Equal(t, "Another title", b.Site().Job.Title)
	assert.Equal(t, "change job", b.NextUndo())
	assert.Contains(t, typeIn(t, w, "Date", "2026-02-30"), "must be a day of the calendar")
	assert.Contains(t, typeIn(t, w, "Crew arrives", "25:00"), "a time from 00:00 to 23:59")
	assert.Contains(t, typeIn(t, w, "Phone", strings.Repeat("1", 201)), "at most 200")

	// Done takes what is typed, and stays open where that is wrong.
	press(t, w, "Done")
	require.NotNil(t, w.Canvas().Overlays().Top())
	assert.Empty(t, typeIn(t, w, "Date", "2026-03-17"))
	assert.Empty(t, typeIn(t, w, "Crew arrives", "07:30"))
	assert.Empty(t, typeIn(t, w, "Phone", ""))
	in, _ := rowsSeen(w)
	retype(w, in["Customer"].(*entry), "Somebody")
	press(t, w, "Done")
	assert.Nil(t, w.Canvas().Overlays().Top())
	assert.Equal(t, "Somebody", b.Site().Job.Customer)
	undone(t, b, before)
}

func TestDialogFollowsUndo(t *testing.T) {
	b, w := newBench(t, "restaurant"), windowOf(t)
	JobForm(b.Desk, w)
	was := b.Site().Job.Title
	typeIn(t, w, "Title", "Another title")
	b.Undo()
	in, _ := rowsSeen(w)
	assert.Equal(t, was, in["Title"].(*entry).Text)
	press(t, w, "Done")
	b.Redo() // a closed dialog hears no more of it
	assert.Equal(t, was, in["Title"].(*entry).Text)
}

func TestSettingsForm(t *testing.T) {
	b, w := newBench(t, "restaurant"), windowOf(t)
	before := encoded(t, b)
	SettingsForm(b.Desk, w)
	choose(t, w, "Units", "Metres, litres, bar")
	assert.Equal(t, unit.Metric, b.Site().Units)
	assert.Equal(t, "change units", b.NextUndo())
	choose(t, w, "Paper", "A4")
	assert.Equal(t, site.A4, b.Site().Paper)
	choose(t, w, "Code edition", b.Tables().Codes["upc"].Name)
	assert.Equal(t, "upc", b.Site().Code)
	assert.Equal(t, "change code edition", b.NextUndo())
	undone(t, b, before)
}

func TestLevelsForm(t *testing.T) {
	b, w := newBench(t, "restaurant"), windowOf(t)
	before := encoded(t, b)
	l := newLevels(b.Desk, w)
	open(b.Desk, w, "Levels", fyne.NewSize(460, 480), l.page, l)
	n := len(b.Site().Network.Levels)
	require.Positive(t, n)
	require.Len(t, l.sheets, n)

	l.name.SetText("Attic")
	l.name.OnSubmitted("Attic")
	require.Len(t, l.sheets, n+1)
	assert.Equal(t, "add level", b.NextUndo())
	l.name.SetText("Attic")
	l.name.OnSubmitted("Attic")
	assert.Contains(t, l.wrong.Text, "already")
	require.Len(t, l.sheets, n+1)

	attic := linesOf(l.sheets[n])
	fill(t, w, entryOf(t, attic["Height"]), "24 ft")
	assert.InDelta(t, unit.Feet(24).Metres(), b.Site().Network.Levels[n].Elevation.Metres(), 1e-9)
	fill(t, w, entryOf(t, attic["Height"]), "40000 ft")
	assert.Contains(t, attic["Height"].wrong(), "at most")
	entryOf(t, attic["Height"]).TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	fill(t, w, entryOf(t, attic["Name"]), b.Site().Network.Levels[0].Name)
	assert.Contains(t, attic["Name"].wrong(), "already")
	fill(t, w, entryOf(t, attic["Name"]), "Loft")
	assert.Equal(t, "Loft", b.Site().Network.Levels[n].Name)
	assert.Equal(t, "rename level", b.NextUndo())

	l.remove(n)
	assert.Len(t, l.sheets, n)
	l.remove(0) // things are on it
	assert.Len(t, l.sheets, n)
	press(t, w, "Close")
	undone(t, b, before)
}

func TestRigForm(t *testing.T) {
	b, w := newBench(t, "restaurant"), windowOf(t)
	before := encoded(t, b)
	RigForm(b.Desk, w)
	for _, c := range []struct{ tab, label, good, bad, want string }{
		{"Rig and pump", "Pump gives", "10 gpm", "0", "at least 0.2642 gpm"},
		{"Rig and pump", "Rated pressure", "3,900 psi", "0", "more than 0 psi"},
		{"Tank and supply", "Tank holds", "300 gal", "-1", "at least 0 gal"},
		{"Rig and pump", "Water is at", "60 °F", "100 °C", "at most 140 °F"},
		{"Crew", "People", "3", "2.5", "no whole number"},
		{"Crew", "Working day", "8 h", "30", "at least 1 h"},
		{"Crew", "Stroke", "10 ft", "0", "0 ft is too little: at least 3 7/8 in (0.1 m)"},
		{"Crew", "Downstream, extra", "40 %", "2000", "at most 1000 %"},
		{"Crew", "Tow", "4 mph", "fast", "no speed"},
	} {
		turnTo(t, w, c.tab)
		assert.Contains(t, typeIn(t, w, c.label, c.bad), c.want, c.label)
		was := b.NextUndo()
		assert.Empty(t, typeIn(t, w, c.label, c.good), c.label)
		assert.Equal(t, "change rig", b.NextUndo(), "%s after %q", c.label, was)
	}
	r := b.Site().Rig
	assert.InDelta(t, 10, r.Pump.Flow.GallonsPerMinute(), 1e-9)
	assert.Equal(t, 3, r.Crew.People)
	assert.Equal(t, 480.0, r.Crew.Shift)
	assert.InDelta(t, 0.4, r.Crew.Downstream, 1e-12)
	turnTo(t, w, "Crew")
	assert.Empty(t, typeIn(t, w, "Working day", ""))
	assert.Zero(t, b.Site().Rig.Crew.Shift)

	// Plumbing is counted as a whole or not at all.
	turnTo(t, w, "Rig and pump")
	assert.Empty(t, typeIn(t, w, "Plumbing, bore", ""))
	assert.Zero(t, b.Site().Rig.Plumbing)
	in, _ := rowsSeen(w)
	assert.NotContains(t, in, "Plumbing, length")
	assert.Empty(t, typeIn(t, w, "Plumbing, bore", "1 in"))
	assert.Empty(t, typeIn(t, w, "Plumbing, length", "12 ft"))
	assert.Equal(t, rig.Plumbing{Bore: unit.Inches(1), Length: unit.Feet(12)}, b.Site().Rig.Plumbing)
	undone(t, b, before)
}

func TestHoses(t *testing.T) {
	b, w := newBench(t, "restaurant"), windowOf(t)
	before := encoded(t, b)
	h := newHoses(b.Desk)
	open(b.Desk, w, "Hoses", fyne.NewSize(560, 620), h.page, h)
	n := len(b.Site().Rig.Hoses)
	h.pick.SetSelectedIndex(1)
	assert.Equal(t, b.Site().Rig.Hoses[1].Name, entryOf(t, linesOf(h.sheet)["Name"]).Text)
	fill(t, w, entryOf(t, linesOf(h.sheet)["Length"]), "350")
	assert.InDelta(t, 350, b.Site().Rig.Hoses[1].Length.Feet(), 1e-9)
	fill(t, w, entryOf(t, linesOf(h.sheet)["Bore"]), "20 in")
	assert.Contains(t, linesOf(h.sheet)["Bore"].wrong(), "too much")
	entryOf(t, linesOf(h.sheet)["Bore"]).TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	listOf(t, linesOf(h.sheet)["Smallest pipe"]).SetSelected("2 in (DN 50)")
	assert.Equal(t, unit.Size(2), b.Site().Rig.Hoses[1].MinPipe)

	press(t, w, "Add")
	require.Len(t, b.Site().Rig.Hoses, n+1)
	assert.Equal(t, n, h.at, "the new one lies open")
	added := b.Site().Rig.Hoses[n]
	assert.Equal(t, "Another hose", added.Name)
	assert.InDelta(t, 350, added.Length.Feet(), 1e-9, "like the one that lay open")
	for range n + 1 {
		press(t, w, "Remove")
	}
	assert.Empty(t, b.Site().Rig.Hoses)
	press(t, w, "Add")
	assert.Len(t, b.Site().Rig.Hoses, 1)
	undone(t, b, before)
	require.Len(t, h.parts(), n)
}

func TestNozzles(t *testing.T) {
	b, w := newBench(t, "restaurant"), windowOf(t)
	before := encoded(t, b)
	s := newNozzles(b.Desk)
	open(b.Desk, w, "Nozzles", fyne.NewSize(560, 620), s.page, s)
	of := func() *rig.Nozzle { return &b.Site().Rig.Nozzles[0] }
	holes := len(of().Orifices)
	fill(t, w, entryOf(t, linesOf(s.sheet)["Set 1, holes"]), "8")
	assert.Equal(t, 8, of().Orifices[0].Count)
	fill(t, w, entryOf(t, linesOf(s.sheet)["Set 1, angle"]), "100")
	assert.Contains(t, linesOf(s.sheet)["Set 1, angle"].wrong(), "at most 90°")
	entryOf(t, linesOf(s.sheet)["Set 1, angle"]).TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	listOf(t, linesOf(s.sheet)["Set 1, facing"]).SetSelected("Front")
	assert.Equal(t, rig.Front, of().Orifices[0].Facing)
	press(t, w, "Add a set of holes")
	require.Len(t, of().Orifices, holes+1)
	assert.Contains(t, linesOf(s.sheet), "Set 2, holes")
	for range holes + 1 {
		press(t, w, "Remove the last set")
	}
	assert.Len(t, of().Orifices, 1, "a nozzle has holes")
	assert.Contains(t, s.wrong.Text, "of 1 to 50")

	// What it is for: never for nothing.
	for _, p := range rig.Purposes() {
		box := boxOf(t, linesOf(s.sheet)[strings.ToUpper(string(p)[:1])+strings.ReplaceAll(string(p)[1:], "_", " ")])
		if !box.Checked {
			test.Tap(box)
		}
	}
	assert.Equal(t, rig.Purposes(), of().Purposes)
	for _, p := range rig.Purposes() {
		test.Tap(boxOf(t, linesOf(s.sheet)[strings.ToUpper(string(p)[:1])+strings.ReplaceAll(string(p)[1:], "_", " ")]))
	}
	assert.Equal(t, []rig.Purpose{rig.RootCutting}, of().Purposes)
	assert.Contains(t, linesOf(s.sheet)["Root cutting"].wrong(), "tick another purpose first")
	assert.True(t, boxOf(t, linesOf(s.sheet)["Root cutting"]).Checked, "the box shows what is so")
	undone(t, b, before)
}

func TestPricesForm(t *testing.T) {
	b, w := newBench(t, "school"), windowOf(t)
	before := encoded(t, b)
	require.False(t, b.Site().Prices.Given())
	PricesForm(b.Desk, w)
	in, _ := rowsSeen(w)
	assert.Len(t, in, 1, "without a currency there are no prices")
	assert.Contains(t, typeIn(t, w, "Currency", "dollars"), "a code of ISO 4217")
	assert.Empty(t, typeIn(t, w, "Currency", "usd"))
	assert.Equal(t, "USD", b.Site().Prices.Currency)
	assert.Equal(t, b.Units(), b.Site().Prices.Units)
	assert.Empty(t, typeIn(t, w, "Call-out", "95.00"))
	assert.Equal(t, "95.00", b.Site().Prices.CallOut.String())
	assert.Contains(t, typeIn(t, w, "Call-out", "-1"), "from 0 to 999999999.9999")
	assert.Contains(t, typeIn(t, w, "Call-out", "much"), "is no amount")
	assert.Empty(t, typeIn(t, w, "Call-out", ""))
	assert.True(t, b.Site().Prices.CallOut.IsZero())
	assert.Empty(t, typeIn(t, w, "Night from", "18:00"))
	press(t, w, "Add a rate")
	press(t, w, "Add a rate")
	require.Len(t, b.Site().Prices.Rates, 2)
	assert.Empty(t, choose(t, w, "Rate 2, up to", "4 in (DN 100)"))
	assert.Contains(t, choose(t, w, "Rate 1, up to", "6 in (DN 150)"), "must be")
	assert.Equal(t, unit.Sizes()[0], b.Site().Prices.Rates[0].UpTo)
	assert.Empty(t, typeIn(t, w, "Rate 2, a length", "1.25"))
	assert.Equal(t, "1.25", b.Site().Prices.Rates[1].Amount.String())
	press(t, w, "Remove the last rate")
	assert.Len(t, b.Site().Prices.Rates, 1)
	assert.Empty(t, typeIn(t, w, "Currency", ""))
	assert.False(t, b.Site().Prices.Given())
	undone(t, b, before)
}

func TestDialogFieldsAreOfTheSchema(t *testing.T) {
	for _, f := range jobFields() {
		assert.NoError(t, f.fault, f.label)
	}
	for _, f := range levelFields() {
		assert.NoError(t, f.fault, f.label)
	}
	for _, f := range priceFields(1) {
		assert.NoError(t, f.fault, f.label)
	}
	for _, table := range [][]field[rig.Rig]{pumpFields(), tankFields(), crewFields(), hoseFields(0), nozzleFields(0, 1)} {
		for _, f := range table {
			assert.NoError(t, f.fault, f.label)
		}
	}
}

func TestLibraryForm(t *testing.T) {
	b, w := newBench(t, "restaurant"), windowOf(t)
	before := encoded(t, b)
	dir := filepath.Join(t.TempDir(), "rigs")
	s := newShelves(b.Desk, w, Library{Folder: dir})
	open(b.Desk, w, "Rig library", fyne.NewSize(560, 520), s.page, s)
	defaults := len(s.rows)
	s.name.SetText("Small trailer")
	press(t, w, "Save")
	require.Len(t, s.rows, defaults+1)
	own := s.rows[defaults]
	assert.Equal(t, "Small trailer", own.Name)
	assert.Equal(t, "Small trailer", own.Rig.Name)

	// Another rig, then the kept one again. The one in use is marked.
	marked := func() (n int) {
		see(w, func(o fyne.CanvasObject) {
			if l, ok := o.(*widget.Label); ok && strings.Contains(l.Text, "this site has it now") {
				n++
			}
		})
		return n
	}
	s.use(s.rows[0])
	assert.Equal(t, 1, marked())
	assert.Equal(t, "Small trailer", s.name.Text, "what was typed stays")
	assert.Equal(t, s.rows[0].Name, b.Site().Rig.Name)
	assert.Equal(t, "change rig", b.NextUndo())
	s.use(own)
	assert.Equal(t, *own.Rig, b.Site().Rig)

	// Out and in again.
	file := filepath.Join(t.TempDir(), "out.json")
	s.writeTo(file, own, nil)
	s.bringIn(file, nil)
	require.Len(t, s.rows, defaults+2)
	assert.Equal(t, "Small trailer (2)", s.rows[defaults+1].Name)

	// A hostile file says where, what and the limit, and is not taken.
	require.NoError(t, os.WriteFile(file, []byte(`{"name": "x", "pump": {"flow": -4}}`), 0o600))
	s.bringIn(file, nil)
	said := ""
	see(w, func(o fyne.CanvasObject) {
		if l, ok := o.(*widget.Label); ok {
			said += l.Text + "\n"
		}
	})
	assert.Contains(t, said, "pump.flow: found -4 L/min, must be a number from 1 to 10000 L/min")
	press(t, w, "Close")
	assert.Len(t, s.rows, defaults+2)

	s.remove(s.rows[defaults+1])
	assert.Len(t, s.rows, defaults+1)
	s.save() // asks first: the name is taken
	press(t, w, "Yes")
	assert.Len(t, s.rows, defaults+1)
	press(t, w, "Done")
	undone(t, b, before)
}

// countedPart counts how often a form is brought up to date.
type countedPart struct{ refreshed int }

func (p *countedPart) refresh()     { p.refreshed++ }
func (p *countedPart) settle() bool { return true }

// TestFormEndsWithItsDialog: a form hears of changes while it lies over the
// window, under another dialog too, and of none once it is gone, by its button or
// by Escape, which hides what lies on top.
func TestFormEndsWithItsDialog(t *testing.T) {
	b := newBench(t, "restaurant")
	w := windowOf(t)
	change := func(title string) {
		j := b.Site().Job
		j.Title = title
		e, err := edit.SetJob(b.Site(), j)
		require.NoError(t, err)
		b.Do(e)
	}
	for name, end := range map[string]func(){
		"by its button": func() { press(t, w, "Done") },
		"by Escape":     func() { w.Canvas().Overlays().Top().Hide() },
	} {
		part := new(countedPart)
		open(b.Desk, w, "Form", fyne.NewSize(300, 200), widget.NewLabel("A form"), part)
		was := part.refreshed
		change(name + " 1")
		assert.Equal(t, was+1, part.refreshed, name)
		sayProblem(w, "Over it", errors.New("a problem"))
		change(name + " 2")
		assert.Equal(t, was+2, part.refreshed, name)
		w.Canvas().Overlays().Top().Hide()
		end()
		require.Nil(t, w.Canvas().Overlays().Top())
		change(name + " 3")
		change(name + " 4")
		assert.Equal(t, was+2, part.refreshed, name)
	}
}
