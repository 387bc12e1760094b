package form

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/look"
	"linemap/internal/unit"
)

func TestTypedIsOneEdit(t *testing.T) {
	b := newBench(t, "restaurant")
	c, w := shown(t, b, false, 1, edit.NodeRef("co-1"))
	assert.Equal(t, "Cleanout CO-1, two-way", c.heading.Text)
	lines := cardLines(t, c)
	before, err := site.Encode(b.Site())
	require.NoError(t, err)

	riser := entryOf(t, lines["Riser"])
	fill(t, w, riser, `5' 3"`)
	assert.InDelta(t, unit.Feet(5.25).Metres(), b.node("co-1").Access.Riser.Metres(), 1e-9)
	assert.Equal(t, "5 ft 3 in", riser.Text)
	assert.Equal(t, "change riser of CO-1", b.NextUndo())
	assert.True(t, w.Canvas().Focused() == riser, "Enter keeps the field")

	// Metres are taken in feet and inches too, and leaving the field is enough.
	retype(w, riser, "2 m")
	w.Canvas().Unfocus()
	assert.InDelta(t, 2, b.node("co-1").Access.Riser.Metres(), 1e-9)

	b.Undo()
	b.Undo()
	assert.Empty(t, b.NextUndo())
	after, err := site.Encode(b.Site())
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
	assert.Equal(t, "4 ft 6 3/8 in", riser.Text)
}

func TestLookingChangesNothing(t *testing.T) {
	b := newBench(t, "restaurant")
	for _, r := range []edit.Ref{edit.NodeRef("co-1"), edit.PipeRef("p011"), edit.SpotRef(b.Site().Spots[0].ID), edit.WaterRef(b.Site().Water[0].ID)} {
		c, w := shown(t, b, false, 1, r)
		for _, l := range cardLines(t, c) {
			if in, ok := l.in().(*typedInput); ok && l.visible() {
				w.Canvas().Focus(in.entry)
				in.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			}
		}
		w.Canvas().Unfocus()
	}
	assert.Empty(t, b.NextUndo(), "going through the fields rounds nothing")
}

func TestWrongInputIsSaidAndNotTaken(t *testing.T) {
	b := newBench(t, "restaurant")
	c, w := shown(t, b, false, 1, edit.NodeRef("co-1"))
	lines := cardLines(t, c)
	for _, bad := range []struct{ label, text, want string }{
		{"Riser", "a lot", `"a lot" is no length`},
		{"Riser", "4000 ft", "4000 ft is too much: at most 3280 ft 10 1/8 in"},
		{"Riser", "-1 ft", "-1 ft is too little: at least 0 ft"},
		{"Invert", "30000 ft", "30000 ft is too much"},
		{"Turn into pipe", "400", "400° is too much: at most 360°"},
		{"Open, close", "30 h", "30 h is too much: at most 24 h"},
		{"Label", strings.Repeat("x", 201), "201 characters, at most 200 can be kept"},
		{"East", "x", "is no length"},
	} {
		e := entryOf(t, lines[bad.label])
		fill(t, w, e, bad.text)
		assert.Contains(t, lines[bad.label].wrong(), bad.want)
		assert.Equal(t, bad.text, e.Text, "what was typed stays")
		w.Canvas().Unfocus()
		assert.Empty(t, b.NextUndo(), bad.label)

		// Escape takes it back, and the message with it.
		w.Canvas().Focus(e)
		e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		assert.Empty(t, lines[bad.label].wrong())
		assert.False(t, e.dirty())
		assert.Empty(t, b.NextUndo(), bad.label)
	}
}

func TestWrongInputIsMended(t *testing.T) {
	b := newBench(t, "restaurant")
	c, w := shown(t, b, false, 1, edit.NodeRef("co-1"))
	l := cardLines(t, c)["Riser"]
	fill(t, w, entryOf(t, l), "x")
	require.NotEmpty(t, l.wrong())
	fill(t, w, entryOf(t, l), "3 ft")
	assert.Empty(t, l.wrong())
	assert.InDelta(t, unit.Feet(3).Metres(), b.node("co-1").Access.Riser.Metres(), 1e-9)
}

func TestOptionalIsLeftOut(t *testing.T) {
	b := newBench(t, "restaurant")
	c, w := shown(t, b, false, 1, edit.NodeRef("co-1"))
	require.NotNil(t, b.node("co-1").Invert)
	fill(t, w, entryOf(t, cardLines(t, c)["Invert"]), "")
	assert.Nil(t, b.node("co-1").Invert)
	assert.Equal(t, "not measured", entryOf(t, cardLines(t, c)["Invert"]).PlaceHolder)
	fill(t, w, entryOf(t, cardLines(t, c)["Open, close"]), "5")
	assert.Equal(t, 5.0, b.node("co-1").Access.OpenMinutes)
	fill(t, w, entryOf(t, cardLines(t, c)["Open, close"]), "")
	assert.Zero(t, b.node("co-1").Access.OpenMinutes)
}

func TestChosenAndTicked(t *testing.T) {
	b := newBench(t, "restaurant")
	c, _ := shown(t, b, false, 1, edit.NodeRef("co-1"))
	lines := cardLines(t, c)
	assert.False(t, lines["Faces"].visible())
	listOf(t, lines["Opening"]).SetSelected("One-way cleanout")
	assert.Equal(t, network.OneWayCleanout, b.node("co-1").Access.Kind)
	assert.Equal(t, "Cleanout CO-1, one-way", c.heading.Text)
	require.True(t, lines["Faces"].visible(), "a one-way cleanout faces somewhere")
	assert.Equal(t, "Against the flow", listOf(t, lines["Faces"]).Selected)
	listOf(t, lines["Faces"]).SetSelected("With the flow")
	assert.Equal(t, network.FacesDownstream, b.node("co-1").Access.Facing)
	assert.Equal(t, "change facing of CO-1", b.NextUndo())
	listOf(t, lines["Size"]).SetSelected("4 in (DN 100)")
	assert.Equal(t, unit.Size(4), b.node("co-1").Access.Size)
	test.Tap(boxOf(t, lines["Indoors"]))
	assert.True(t, b.node("co-1").Access.Indoor)
	for b.NextUndo() != "" {
		b.Undo()
	}
	assert.False(t, lines["Faces"].visible())
	assert.False(t, boxOf(t, lines["Indoors"]).Checked)
	assert.Equal(t, "6 in (DN 150)", listOf(t, lines["Size"]).Selected)
}

func TestManyAtOnce(t *testing.T) {
	b := newBench(t, "restaurant")
	c, w := shown(t, b, false, 1, edit.PipeRef("p011"), edit.PipeRef("p001"))
	lines := cardLines(t, c)
	assert.Equal(t, "2 pipes", c.heading.Text)
	label := entryOf(t, lines["Label"])
	assert.Empty(t, label.Text)
	assert.Equal(t, "various", label.PlaceHolder)
	assert.Equal(t, "various", listOf(t, lines["Size"]).PlaceHolder)

	// Going through a field of various values leaves them.
	w.Canvas().Focus(label)
	label.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	w.Canvas().Unfocus()
	assert.Empty(t, b.NextUndo())

	listOf(t, lines["Size"]).SetSelected("3 in (DN 80)")
	assert.Equal(t, unit.Size(3), b.pipe("p011").Size)
	assert.Equal(t, unit.Size(3), b.pipe("p001").Size)
	assert.Equal(t, "change size of 2 pipes", b.NextUndo())
	fill(t, w, entryOf(t, lines["Fall"]), "1/8")
	require.NotNil(t, b.pipe("p001").Slope)
	assert.NotSame(t, b.pipe("p001").Slope, b.pipe("p011").Slope, "pipes share no figure")
	test.Tap(boxOf(t, lines["Fragile"]))
	assert.True(t, b.pipe("p001").Fragile && b.pipe("p011").Fragile)
	b.Undo()
	b.Undo()
	b.Undo()
	assert.Equal(t, "various", listOf(t, lines["Size"]).PlaceHolder)
	assert.Empty(t, listOf(t, lines["Size"]).Selected)
}

func TestUndoKeepsTheField(t *testing.T) {
	b := newBench(t, "restaurant")
	c, w := shown(t, b, false, 1, edit.NodeRef("co-1"))
	riser := entryOf(t, cardLines(t, c)["Riser"])
	fill(t, w, riser, "5 ft")
	b.Undo()
	assert.True(t, w.Canvas().Focused() == riser)
	assert.Equal(t, "4 ft 6 3/8 in", riser.Text)
	b.Redo()
	assert.True(t, w.Canvas().Focused() == riser)
	assert.Equal(t, "5 ft", riser.Text)
}

func TestTypingOutlivesOtherChanges(t *testing.T) {
	b := newBench(t, "restaurant")
	c, w := shown(t, b, false, 1, edit.NodeRef("co-1"))
	lines := cardLines(t, c)
	riser, room := entryOf(t, lines["Riser"]), entryOf(t, lines["Room"])
	retype(w, riser, "12 ft")
	caret := riser.CursorColumn
	e, err := edit.Change(b.Site(), "change node", edit.Select(edit.NodeRef("co-1")), edit.Changes{Node: func(n *network.Node) { n.Access.Room, n.Access.Riser = "Yard", 3 }})
	require.NoError(t, err)
	b.Do(e)
	assert.Equal(t, "Yard", room.Text)
	assert.Equal(t, "12 ft", riser.Text, "what is being typed stays")
	assert.Equal(t, caret, riser.CursorColumn)
	assert.True(t, w.Canvas().Focused() == riser)
	riser.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.InDelta(t, unit.Feet(12).Metres(), b.node("co-1").Access.Riser.Metres(), 1e-9)

	// Where nothing is typed, the caret stays at its place in the new text.
	w.Canvas().Focus(room)
	room.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	room.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	e, err = edit.Change(b.Site(), "change node", edit.Select(edit.NodeRef("co-1")), edit.Changes{Node: func(n *network.Node) { n.Access.Room = "Yards" }})
	require.NoError(t, err)
	b.Do(e)
	assert.Equal(t, "Yards", room.Text)
	assert.Equal(t, 1, room.CursorColumn)
}

func TestSelectingElsewhereTakesWhatIsTyped(t *testing.T) {
	b := newBench(t, "restaurant")
	c, w := shown(t, b, false, 1, edit.NodeRef("co-1"))
	retype(w, entryOf(t, cardLines(t, c)["Riser"]), "7 ft")
	b.Select(edit.Select(edit.NodeRef("co-2")))
	assert.InDelta(t, unit.Feet(7).Metres(), b.node("co-1").Access.Riser.Metres(), 1e-9)
	assert.NotEqual(t, unit.Feet(7), b.node("co-2").Access.Riser)
	assert.Nil(t, w.Canvas().Focused())
	assert.Contains(t, c.heading.Text, "CO-2")
	assert.Equal(t, "change riser of CO-1", b.NextUndo())

	// Wrong text goes with the thing it was typed for.
	retype(w, entryOf(t, cardLines(t, c)["Riser"]), "wrong")
	b.Select(edit.Select(edit.NodeRef("co-1")))
	assert.Equal(t, "7 ft", entryOf(t, cardLines(t, c)["Riser"]).Text)
	assert.Empty(t, cardLines(t, c)["Riser"].wrong())
	assert.Equal(t, "change riser of CO-1", b.NextUndo())
}

func TestDeletedWhileTyping(t *testing.T) {
	b := newBench(t, "restaurant")
	c, w := shown(t, b, false, 1, edit.SpotRef(b.Site().Spots[0].ID))
	retype(w, entryOf(t, cardLines(t, c)["Label"]), "Gone")
	e, err := edit.Delete(b.Site(), b.Selection())
	require.NoError(t, err)
	b.Do(e)
	assert.Equal(t, e.Name(), b.NextUndo())
	assert.Equal(t, b.Site().Job.Title, c.heading.Text)
	require.NoError(t, b.OpenDemo("school"))
	assert.Equal(t, b.Site().Job.Title, c.heading.Text)
}

func TestOtherKinds(t *testing.T) {
	b := newBench(t, "restaurant")
	s := b.Site()
	spot, water := s.Spots[0].ID, s.Water[0].ID
	e, err := edit.PlaceNote(s, network.Point{X: 1, Y: 2}, "", "Mind the step")
	require.NoError(t, err)
	b.Do(e)
	e, err = edit.PlaceLay(s, spot, edit.NodeRef("co-1"), []network.Point{{X: 5, Y: 5}})
	require.NoError(t, err)
	b.Do(e)
	e, err = edit.Make("add underlay", s, func(d *edit.Draft) error {
		d.AddUnderlay(site.Underlay{ID: "u1", Label: "Ground floor", Scale: 0.01, File: "plan.png"})
		return nil
	})
	require.NoError(t, err)
	b.Do(e)

	c, w := shown(t, b, false, 1, edit.SpotRef(spot))
	fill(t, w, entryOf(t, cardLines(t, c)["Height"]), "2 ft")
	assert.InDelta(t, unit.Feet(2).Metres(), s.Spots[0].Elevation.Metres(), 1e-9)
	listOf(t, cardLines(t, c)["Traffic"]).SetSelected("Live: not used")
	assert.Equal(t, site.LiveTraffic, s.Spots[0].Traffic)

	b.Select(edit.Select(edit.WaterRef(water)))
	fill(t, w, entryOf(t, cardLines(t, c)["Gives"]), "30 L/min")
	assert.InDelta(t, 30, s.Water[0].Flow.LitresPerMinute(), 1e-9)
	fill(t, w, entryOf(t, cardLines(t, c)["Gives"]), "0")
	assert.Contains(t, cardLines(t, c)["Gives"].wrong(), "0 gpm is too little: at least 0.2642 gpm")
	listOf(t, cardLines(t, c)["Kind"]).SetSelected("Tanker")
	assert.Equal(t, site.Tanker, s.Water[0].Kind)

	b.Select(edit.Select(edit.LayRef(&s.Lays[len(s.Lays)-1])))
	assert.Equal(t, "Lay to CO-1", c.heading.Text)
	fill(t, w, entryOf(t, cardLines(t, c)["Measured"]), "80 ft")
	require.NotNil(t, s.Lays[len(s.Lays)-1].Length)
	assert.InDelta(t, unit.Feet(80).Metres(), s.Lays[len(s.Lays)-1].Length.Metres(), 1e-9)

	b.Select(edit.Select(edit.NoteRef(s.Notes[0].ID)))
	text := entryOf(t, cardLines(t, c)["Text"])
	retype(w, text, "Two\nlines")
	w.Canvas().Unfocus()
	assert.Equal(t, "Two\nlines", s.Notes[0].Text)

	b.Select(edit.Select(edit.UnderlayRef("u1")))
	assert.Equal(t, "Floor plan: Ground floor", c.heading.Text)
	faded := cardLines(t, c)["Faded"].in().(*slidInput)
	faded.SetValue(0.5)
	assert.InDelta(t, 0.5, s.Underlays[0].Dim, 1e-9)
	test.Tap(boxOf(t, cardLines(t, c)["Locked"]))
	assert.True(t, s.Underlays[0].Locked)
	fill(t, w, entryOf(t, cardLines(t, c)["Turned"]), "90")
	assert.InDelta(t, 90, s.Underlays[0].Turn.Degrees(), 1e-9)
	fill(t, w, entryOf(t, cardLines(t, c)["One dot is"]), "20 mm")
	assert.InDelta(t, 20, s.Underlays[0].Scale.Millimetres(), 1e-9)
	for b.NextUndo() != "" {
		b.Undo()
	}
}

func TestSeveralKinds(t *testing.T) {
	b := newBench(t, "restaurant")
	c, _ := shown(t, b, false, 1, edit.PipeRef("p011"), edit.PipeRef("p001"), edit.NodeRef("co-1"))
	assert.Equal(t, "3 things", c.heading.Text)
	require.Len(t, c.kinds.Objects, 2)
	test.Tap(c.kinds.Objects[1].(fyne.Tappable))
	assert.Equal(t, "2 pipes", c.heading.Text)
	assert.Equal(t, 2, b.Selection().Len())
	assert.Empty(t, c.kinds.Objects)
}

func TestShortfallIsMendedFromTheCard(t *testing.T) {
	b := newBench(t, "school")
	b.planned()
	var of edit.Ref
	for _, s := range b.Planning().Plan.Shortfalls {
		if s.Cure.Kind == "new_cleanout" {
			of = edit.PipeRef(s.Pipe)
		}
	}
	if of.ID == "" {
		t.Skip("no shortfall of this demo asks for a cleanout")
	}
	c, _ := shown(t, b, false, 1, of)
	require.True(t, c.gap.box.Visible())
	assert.True(t, strings.HasPrefix(c.gap.why.Text, "Not cleaned: "), c.gap.why.Text)
	require.True(t, c.gap.button.Visible())
	nodes := len(b.Site().Network.Nodes)
	test.Tap(c.gap.button)
	assert.Greater(t, len(b.Site().Network.Nodes), nodes)
	assert.Equal(t, "add cleanout", b.NextUndo())
	b.Undo()
	assert.Len(t, b.Site().Network.Nodes, nodes)
}

func TestEveryFieldIsOfTheSchema(t *testing.T) {
	faults := func(label string, err error) { assert.NoError(t, err, label) }
	for _, f := range nodeFields() {
		faults(f.label, f.fault)
	}
	for _, f := range pipeFields() {
		faults(f.label, f.fault)
	}
	for _, f := range spotFields() {
		faults(f.label, f.fault)
	}
	for _, f := range waterFields() {
		faults(f.label, f.fault)
	}
	for _, f := range layFields() {
		faults(f.label, f.fault)
	}
	for _, f := range noteFields() {
		faults(f.label, f.fault)
	}
	for _, f := range underlayFields() {
		faults(f.label, f.fault)
	}
}

func TestNothingSelected(t *testing.T) {
	b := newBench(t, "")
	c, _ := shown(t, b, false, 1)
	next := func() string { return cardLines(t, c)["Next"].in().(*toldInput).Text }
	assert.Equal(t, "New site", c.heading.Text)
	assert.Contains(t, next(), "Draw the drain")
	require.NoError(t, b.OpenDemo("restaurant"))
	b.planned()
	assert.Equal(t, "26 pipes, 217 ft", cardLines(t, c)["Pipe"].in().(*toldInput).Text)
	assert.Contains(t, cardLines(t, c)["By size"].in().(*toldInput).Text, "4 in: 103 ft")
	assert.Equal(t, "6 cleanouts, 2 pulled fixtures", cardLines(t, c)["Openings"].in().(*toldInput).Text)
	assert.Contains(t, next(), "not cleaned")
}

// rows lays many pipes on a desk, each by itself, and selects them all.
func rows(t testing.TB, b *bench, n int) edit.Selection {
	e, err := edit.Make("add pipes", b.Site(), func(d *edit.Draft) error {
		for i := range n {
			y := unit.Length(i)
			from := d.AddNode(network.Node{Kind: network.KindCap, At: network.Point{X: 100, Y: y}})
			to := d.AddNode(network.Node{Kind: network.KindOutlet, At: network.Point{X: 110, Y: y}})
			d.AddPipe(network.Pipe{From: from, To: to, Size: 4, Material: network.PVC40, Class: network.Lateral, Deposit: network.Grease})
		}
		return nil
	})
	require.NoError(t, err)
	b.Do(e)
	var all []edit.Ref
	for i := range b.Site().Network.Pipes {
		all = append(all, edit.PipeRef(b.Site().Network.Pipes[i].ID))
	}
	return edit.Select(all...)
}

func TestManyPipes(t *testing.T) {
	b := newBench(t, "")
	c, _ := shown(t, b, false, 1)
	b.Select(rows(t, b, 1200))
	assert.Equal(t, "1,200 pipes", c.heading.Text)
	lines := cardLines(t, c)
	assert.Equal(t, "39370 ft 1 in together", lines["Length"].in().(*toldInput).Text) // 12 km
	listOf(t, lines["Class"]).SetSelected("Main")
	for i := range b.Site().Network.Pipes {
		require.Equal(t, network.Main, b.Site().Network.Pipes[i].Class)
	}
	assert.Equal(t, "change class of 1,200 pipes", b.NextUndo())
}

// BenchmarkSelectMany is how long the card takes to show 10,000 pipes.
func BenchmarkSelectMany(bm *testing.B) {
	b := newBench(bm, "")
	app := test.NewTempApp(bm)
	app.Settings().SetTheme(&look.Theme{Choice: look.ByDay, Scale: 1})
	w := test.NewTempWindow(bm, New(b.Desk, func(err error) { bm.Error(err) }))
	w.Resize(fyne.NewSize(320, 700))
	all := rows(bm, b, 10000)
	b.StopPlanning()
	b.Graph()
	for bm.Loop() {
		b.Select(all)
		b.Select(edit.Selection{})
	}
}
