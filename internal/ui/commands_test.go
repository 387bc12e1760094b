package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/hand"
	"linemap/internal/ui/look"
	"linemap/internal/unit"
)

// yard opens the window on a drain of two pipes with a cleanout between, on its
// way to the sewer, planned.
func yard(t testing.TB) *bench {
	b := empty(t)
	b.typed("p")
	b.click(ft(-40, 0))
	b.move(ft(0, 0))
	b.typed("80")
	b.key(fyne.KeyReturn, fyne.KeyReturn)
	b.typed("o")
	b.click(ft(40, 0))
	b.typed("c")
	b.click(ft(0, 0))
	b.typed("s")
	b.click(ft(0, -20))
	b.typed("h")
	b.click(ft(20, -20))
	b.typed("k")
	b.selectOnly()
	b.rest()
	require.NotNil(t, b.desk.Planning().Plan)
	return b
}

// west and east are the pipes of the yard.
func west(b *bench) edit.Ref { return b.pipeFrom(ft(-40, 0)) }
func east(b *bench) edit.Ref { return b.pipeFrom(ft(0, 0)) }

// pipeFrom is the pipe that begins at a place.
func (b *bench) pipeFrom(at network.Point) edit.Ref {
	b.t.Helper()
	n := b.node(at, b.desk.Level())
	for _, p := range b.desk.Site().Network.Pipes {
		if p.From == n.ID {
			return edit.PipeRef(p.ID)
		}
	}
	b.t.Fatalf("no pipe from %v", at)
	return edit.Ref{}
}

// pictured puts a picture under the yard.
func pictured(t *testing.T, b *bench) {
	b.addUnderlay(picturePNG(t, t.TempDir(), "plan.png"))
	b.until("the floor plan", func() bool { return len(b.desk.Site().Underlays) == 1 })
	b.key(fyne.KeyEscape)
	b.selectOnly()
}

// levels gives the yard a hall over its cellar.
func levels(t *testing.T, b *bench) {
	for _, l := range []struct {
		name   string
		height unit.Length
	}{{"Cellar", 0}, {"Hall", unit.Feet(10)}} {
		require.True(t, b.do(edit.AddLevel(b.desk.Site(), l.name, l.height)))
	}
}

// commandCases say of each command what it needs, and what it does on the yard.
var commandCases = []struct {
	name  string
	needs func(t *testing.T, b *bench) // what has to be there for it
	grey  bool                         // it is greyed on an empty site
	shows func(t *testing.T, b *bench) // what is to be seen after it
}{
	{name: "New", shows: func(t *testing.T, b *bench) {
		b.press("Lose the changes")
		assert.Empty(t, b.desk.Site().Network.Pipes)
		assert.False(t, b.desk.Changed())
	}},
	{name: "New from a demo", shows: func(t *testing.T, b *bench) {
		items := b.menus["New from a demo"].ChildMenu.Items
		require.Len(t, items, 3)
		items[0].Action()
		b.press("Lose the changes")
		assert.Greater(t, len(b.desk.Site().Network.Pipes), 10)
	}},
	{name: "Open…", shows: says("Open")},
	{name: "Open recent", grey: true, needs: func(t *testing.T, b *bench) {
		path := filepath.Join(t.TempDir(), "yard"+site.Extension)
		require.NoError(t, b.desk.SaveAs(path))
		b.remember()
		b.newSite()
	}, shows: func(t *testing.T, b *bench) {
		items := b.menus["Open recent"].ChildMenu.Items
		require.Len(t, items, 1)
		assert.True(t, strings.HasPrefix(items[0].Label, "yard"+site.Extension), items[0].Label)
		items[0].Action()
		assert.Len(t, b.desk.Site().Network.Pipes, 2)
		assert.Equal(t, "yard", b.desk.Name())
	}},
	{name: "Save", needs: func(t *testing.T, b *bench) {
		require.NoError(t, b.desk.SaveAs(filepath.Join(t.TempDir(), "yard"+site.Extension)))
		require.True(t, b.do(edit.PlaceSpot(b.desk.Site(), ft(5, -30))))
		require.True(t, b.desk.Changed())
	}, shows: func(t *testing.T, b *bench) {
		assert.False(t, b.desk.Changed())
		saved, err := site.Open(b.desk.Path())
		require.NoError(t, err)
		assert.Len(t, saved.Spots, 2)
	}},
	{name: "Save as…", shows: says("Save")},
	{name: "Export papers…", grey: true, shows: says("Export papers")},
	{name: "Print run sheet…", grey: true, needs: viewer, shows: handedOver("run sheet")},
	{name: "Print map…", grey: true, needs: viewer, shows: handedOver("map")},
	{name: "Quit", shows: says("Save the changes?")},

	{name: "Undo", grey: true, shows: func(t *testing.T, b *bench) {
		assert.Empty(t, b.desk.Site().Water)
		assert.Contains(t, b.menus["Redo"].Label, "Redo place")
	}},
	{name: "Redo", grey: true, needs: func(_ *testing.T, b *bench) { b.undo() }, shows: func(t *testing.T, b *bench) {
		assert.Len(t, b.desk.Site().Water, 1)
	}},
	{name: "Cut", grey: true, needs: picked(west), shows: func(t *testing.T, b *bench) {
		assert.Len(t, b.desk.Site().Network.Pipes, 1)
		assert.NotEmpty(t, b.app.Clipboard().Content())
	}},
	{name: "Copy", grey: true, needs: picked(west), shows: func(t *testing.T, b *bench) {
		assert.Len(t, b.desk.Site().Network.Pipes, 2)
		clip, err := edit.ClipFromText(b.app.Clipboard().Content())
		require.NoError(t, err)
		assert.False(t, clip.Empty())
		assert.Contains(t, b.status.said, "Copied 1 thing")
	}},
	{name: "Paste", needs: func(t *testing.T, b *bench) {
		picked(west)(t, b)
		b.copy()
		b.move(ft(0, 40))
	}, shows: func(t *testing.T, b *bench) {
		require.Len(t, b.desk.Site().Network.Pipes, 3)
		assert.Equal(t, 3, b.desk.Selection().Len(), "the pipe and its ends")
	}},
	{name: "Duplicate", grey: true, needs: picked(west), shows: func(t *testing.T, b *bench) {
		assert.Len(t, b.desk.Site().Network.Pipes, 3)
	}},
	{name: "Delete", grey: true, needs: picked(west), shows: func(t *testing.T, b *bench) {
		assert.Len(t, b.desk.Site().Network.Pipes, 1)
	}},
	{name: "Select all", shows: func(t *testing.T, b *bench) {
		assert.Equal(t, 2+3+1+1, b.desk.Selection().Len(), "pipes, nodes, spot and hydrant")
	}},
	{name: "Select same kind", grey: true, needs: picked(west), shows: func(t *testing.T, b *bench) {
		assert.Equal(t, edit.Select(west(b), east(b)), b.desk.Selection())
	}},
	{name: "Select upstream", grey: true, needs: picked(east), shows: func(t *testing.T, b *bench) {
		assert.True(t, b.desk.Selection().Has(west(b)))
		assert.False(t, b.desk.Selection().Has(edit.NodeRef(b.node(ft(40, 0), "").ID)))
	}},
	{name: "Select downstream", grey: true, needs: picked(west), shows: func(t *testing.T, b *bench) {
		assert.True(t, b.desk.Selection().Has(east(b)))
		assert.False(t, b.desk.Selection().Has(edit.NodeRef(b.node(ft(-40, 0), "").ID)))
	}},
	// The yard reaches from (-40, -20) to (40, 0): its middle is (0, -10), from where
	// the outlet lies 40 east and 10 north.
	{name: "Turn left 1/4", grey: true, needs: all, shows: outletAt(-10, 30)},
	{name: "Turn right 1/4", grey: true, needs: all, shows: outletAt(10, -50)},
	{name: "Turn by…", grey: true, needs: all, shows: func(t *testing.T, b *bench) {
		b.typed("ninety")
		assert.True(t, find(b.dialog(), func(w *widget.Button) bool { return w.Text == "Turn" }).Disabled())
		b.entry(0).SetText("90")
		b.press("Turn")
		assert.Nil(t, b.dialog())
		outletAt(-10, 30)(t, b)
	}},
	{name: "Mirror left to right", grey: true, needs: all, shows: outletAt(-40, 0)},
	{name: "Mirror top to bottom", grey: true, needs: all, shows: outletAt(40, -20)},
	{name: "Reverse flow", grey: true, needs: picked(west), shows: func(t *testing.T, b *bench) {
		assert.Len(t, b.desk.Site().Network.Pipes, 2)
		for _, p := range b.desk.Site().Network.Pipes {
			assert.Equal(t, b.node(ft(0, 0), "").ID, p.From, "both flow away from the cleanout")
		}
	}},
	{name: "Split pipe in the middle", grey: true, needs: picked(west), shows: func(t *testing.T, b *bench) {
		assert.Len(t, b.desk.Site().Network.Pipes, 3)
		b.node(ft(-20, 0), "")
	}},
	{name: "Join two ends", grey: true, needs: func(_ *testing.T, b *bench) {
		b.typed("p")
		b.click(ft(-40, 20))
		b.click(ft(-60, 20))
		b.key(fyne.KeyReturn, fyne.KeyEscape)
		b.selectOnly(edit.NodeRef(b.node(ft(-40, 0), "").ID), edit.NodeRef(b.node(ft(-60, 20), "").ID))
	}, shows: func(t *testing.T, b *bench) {
		g := b.desk.Graph()
		assert.Empty(t, capsAt(b, ft(-40, 0)), "the end is joined")
		assert.NotNil(t, g)
	}},
	{name: "Move to level", grey: true, needs: func(t *testing.T, b *bench) {
		levels(t, b)
		b.selectAll()
	}, shows: func(t *testing.T, b *bench) {
		items := b.menus["Move to level"].ChildMenu.Items
		require.Len(t, items, 2)
		items[1].Action()
		assert.Equal(t, "Hall", b.desk.Level())
		b.node(ft(40, 0), "Hall")
	}},

	{name: "Whole level", needs: away, shows: func(t *testing.T, b *bench) {
		sees(t, b, ft(-40, 0), true)
		sees(t, b, ft(40, 0), true)
	}},
	{name: "What is selected", grey: true, needs: func(t *testing.T, b *bench) {
		b.selectOnly(west(b))
		away(t, b)
	}, shows: func(t *testing.T, b *bench) { sees(t, b, ft(-40, 0), true) }},
	{name: "Nearer", needs: remember, shows: func(t *testing.T, b *bench) {
		assert.InDelta(t, 1.5, b.board.View().Scale/seen, 1e-9)
	}},
	{name: "Farther", needs: remember, shows: func(t *testing.T, b *bench) {
		assert.InDelta(t, 1/1.5, b.board.View().Scale/seen, 1e-9)
	}},
	{name: "Level above", needs: levels, shows: func(t *testing.T, b *bench) {
		assert.Equal(t, "Hall", b.desk.Level())
		b.command("Level above")
		assert.Equal(t, "Hall", b.desk.Level(), "there is none above")
	}},
	{name: "Level below", needs: func(t *testing.T, b *bench) {
		levels(t, b)
		b.desk.SetLevel("Hall")
	}, shows: func(t *testing.T, b *bench) { assert.Equal(t, "Cellar", b.desk.Level()) }},
	{name: "Other levels in the background", shows: toggled("Other levels in the background", func(b *bench) bool { return b.board.Ghosts() }, true)},
	{name: "Runs and hose lays", shows: toggled("Runs and hose lays", func(b *bench) bool { return b.board.PlanShown() }, true)},
	{name: "Grid", shows: toggled("Grid", func(b *bench) bool { return b.desk.Grid().Shown }, true)},
	{name: "Snap to grid, joints and angles", shows: toggled("Snap to grid, joints and angles", func(b *bench) bool { return b.desk.Grid().Snap }, true)},
	{name: "Daylight", shows: lightOf("Daylight", look.ByDay)},
	{name: "Night", shows: lightOf("Night", look.ByNight)},
	{name: "As the system", needs: func(_ *testing.T, b *bench) { b.setTheme(look.ByNight) }, shows: lightOf("As the system", look.BySystem)},
	{name: "Text size", shows: func(t *testing.T, b *bench) {
		items := b.menus["Text size"].ChildMenu.Items
		require.Len(t, items, len(look.Scales))
		before := b.status.plan.MinSize().Height
		items[len(items)-1].Action()
		assert.Greater(t, b.status.plan.MinSize().Height, 1.5*before)
	}},

	{name: "Job and customer…", shows: says("customer")},
	{name: "Rig, hoses and nozzles…", shows: says("ozzle")},
	{name: "Rig library…", shows: says("library")},
	{name: "Prices…", shows: says("Prices")},
	{name: "Results of a visit…", grey: true, shows: says("Add the visit of a day")},
	{name: "Levels…", shows: says("Levels")},
	{name: "Units, paper and code…", shows: says("Units")},
	{name: "Place on Earth…", shows: says("GeoJSON")},
	{name: "Floor plan under the sketch…", shows: says("Open")},
	{name: "Scale the floor plan", grey: true, needs: pictured, shows: func(t *testing.T, b *bench) {
		assert.Equal(t, hand.NewScale("").Name(), b.board.Tool().Name())
	}},
	{name: "Keep the floor plan in the site file", grey: true, needs: pictured, shows: func(t *testing.T, b *bench) {
		assert.NotEmpty(t, b.desk.Site().Underlays[0].Data)
		assert.Contains(t, b.status.said, "in the site file already")
	}},

	{name: "Plan again", shows: func(t *testing.T, b *bench) {
		assert.True(t, b.desk.Planning().Running)
		was := b.desk.Planning().Plan
		b.rest()
		assert.NotSame(t, was, b.desk.Planning().Plan)
		assert.Equal(t, was.Cost, b.desk.Planning().Plan.Cost)
	}},
	{name: "Stop, and take the best so far", grey: true, needs: func(_ *testing.T, b *bench) { b.desk.Replan() }, shows: func(t *testing.T, b *bench) {
		b.rest()
		assert.False(t, b.desk.Planning().Running)
	}},
	{name: "Play the day", grey: true, shows: func(t *testing.T, b *bench) {
		assert.True(t, b.day.playing)
		b.command("Play the day")
		assert.False(t, b.day.playing)
	}},
	{name: "What would be better…", grey: true, shows: func(t *testing.T, b *bench) {
		b.until("the advice", func() bool { return strings.Contains(b.dialogText(), "Least pressure") })
		was, rig := b.bytes(), b.desk.Site().Rig.Name
		b.press("Take it")
		assert.NotEqual(t, rig, b.desk.Site().Rig.Name)
		b.undo()
		assert.Equal(t, was, b.bytes())
	}},
	{name: "Keep the runs as they stand", grey: true, shows: func(t *testing.T, b *bench) {
		assert.Equal(t, b.desk.Planning().Plan.Keys(), b.desk.Site().ByHand.Keep)
	}},
	{name: "Keep this order", grey: true, shows: func(t *testing.T, b *bench) {
		assert.Equal(t, b.desk.Planning().Plan.Keys(), b.desk.Site().ByHand.Order)
	}},
	{name: "Let the planner decide everything", grey: true, needs: func(_ *testing.T, b *bench) {
		b.keepAll()
		b.rest()
	}, shows: func(t *testing.T, b *bench) { assert.True(t, b.desk.Site().ByHand.IsZero()) }},
	{name: "What the runs by hand cost…", grey: true, shows: says("The planner decided everything.")},

	{name: "Three minutes to the first sketch", shows: says("Save the changes?")},
	{name: "Keys and mouse", shows: says("Shift + wheel")},
	{name: "Signs on the board", shows: says("Signs on the board")},
	{name: "Safety", shows: says("Safety")},
	{name: "Welcome", shows: func(t *testing.T, b *bench) { assert.NotNil(t, b.welcome) }},
	{name: "About linemap", shows: says("does not replace judgement")},
}

// On an empty site nothing can be done that needs something.
func TestCommandsThatCannotBeDone(t *testing.T) {
	b := empty(t)
	was := b.bytes()
	for _, c := range commandCases {
		item := b.menus[c.name]
		assert.Equal(t, c.grey, item.Disabled, c.name)
		if c.grey && item.ChildMenu == nil {
			item.Action() // its key is not greyed
			assert.Equal(t, was, b.bytes(), c.name)
			assert.Nil(t, b.dialog(), c.name)
		}
	}
}

func TestEveryCommand(t *testing.T) {
	var named []string
	for _, c := range commandCases {
		named = append(named, c.name)
		t.Run(c.name, func(t *testing.T) {
			b := yard(t)
			if c.needs != nil {
				c.needs(t, b)
			}
			b.refreshMenus()
			if b.menus[c.name].ChildMenu == nil {
				b.command(c.name)
			}
			c.shows(t, b)
		})
	}
	b := newBench(t)
	for _, c := range b.commands() {
		assert.Contains(t, named, c.name, "every command is in this test")
	}
}

// says is a look at the dialog that a command opens. Escape closes it and changes
// nothing.
func says(text string) func(*testing.T, *bench) {
	return func(t *testing.T, b *bench) {
		was := b.bytes()
		assert.Contains(t, b.dialogText(), text)
		b.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
		assert.Nil(t, b.dialog(), "Escape closes it")
		assert.Equal(t, was, b.bytes())
	}
}

func picked(what func(*bench) edit.Ref) func(*testing.T, *bench) {
	return func(_ *testing.T, b *bench) { b.selectOnly(what(b)) }
}

func all(_ *testing.T, b *bench) { b.selectAll() }

func outletAt(x, y float64) func(*testing.T, *bench) {
	return func(t *testing.T, b *bench) { assert.Equal(t, network.KindOutlet, b.node(ft(x, y), "").Kind) }
}

func capsAt(b *bench, at network.Point) (caps []network.NodeID) {
	for _, n := range b.desk.Site().Network.Nodes {
		if n.Kind == network.KindCap && n.At.Distance(at) < unit.Inches(1) {
			caps = append(caps, n.ID)
		}
	}
	return caps
}

func away(t *testing.T, b *bench) {
	v := b.board.View()
	v.Centre = ft(4000, 4000)
	b.board.SetView(v)
	sees(t, b, ft(-40, 0), false)
}

func sees(t *testing.T, b *bench, p network.Point, want bool) {
	t.Helper()
	at, size := b.dot(p), b.board.Size()
	assert.Equal(t, want, at.X >= 0 && at.Y >= 0 && at.X <= size.Width && at.Y <= size.Height, "sees %v", p)
}

var seen float64 // the scale of the board before a command

func remember(_ *testing.T, b *bench) { seen = b.board.View().Scale }

func toggled(name string, is func(*bench) bool, was bool) func(*testing.T, *bench) {
	return func(t *testing.T, b *bench) {
		assert.Equal(t, !was, is(b))
		assert.Equal(t, !was, b.menus[name].Checked)
		b.command(name)
		assert.Equal(t, was, is(b))
		assert.Equal(t, was, b.menus[name].Checked)
	}
}

func lightOf(name string, c look.Choice) func(*testing.T, *bench) {
	return func(t *testing.T, b *bench) {
		assert.Equal(t, c, b.app.Settings().Theme().(*look.Theme).Choice)
		assert.Equal(t, string(c), b.prefs.String(prefTheme))
		for _, n := range []string{"Daylight", "Night", "As the system"} {
			assert.Equal(t, n == name, b.menus[n].Checked, n)
		}
	}
}

// viewer puts a program in the place of the system's viewer, that keeps the
// papers that it is handed.
func viewer(t *testing.T, _ *bench) {
	dir := t.TempDir()
	script := "#!/bin/sh\ncat \"$1\" > '" + dir + "/part' && mv '" + dir + "/part' '" + dir + "/handed.pdf'\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "xdg-open"), []byte(script), 0o700))
	t.Setenv("PATH", dir+string(os.PathListSeparator)+os.Getenv("PATH"))
	t.Setenv("TMPDIR", dir)
}

func handedOver(name string) func(*testing.T, *bench) {
	return func(t *testing.T, b *bench) {
		b.until("the viewer", func() bool { return strings.Contains(b.status.said, "open in the system's viewer") })
		assert.Contains(t, b.status.said, name)
		path := filepath.Join(os.Getenv("TMPDIR"), "handed.pdf")
		var data []byte
		b.until("the paper", func() (ok bool) {
			var err error
			data, err = os.ReadFile(path)
			return err == nil
		})
		assert.True(t, strings.HasPrefix(string(data), "%PDF-"))
	}
}

func TestKeysAreUnique(t *testing.T) {
	b := newBench(t)
	taken := map[string]string{}
	take := func(key, by string) {
		key = strings.ToUpper(key)
		assert.Empty(t, taken[key], "%s has the key %s, and so has %s", by, key, taken[key])
		taken[key] = by
	}
	for _, c := range b.commands() {
		if c.key != nil {
			name := c
			name.plain = ""
			require.NotEmpty(t, keyName(name), "%s: the help does not know its key", c.name)
			take(keyName(name), c.name)
		}
		if c.plain != "" {
			take(c.plain, c.name)
		}
	}
	for _, e := range hand.Kit() {
		take(e.Key, e.Name)
		assert.Len(t, e.Key, 1)
	}
	var names []string
	for _, c := range b.commands() {
		assert.NotContains(t, names, c.name, "a name is one entry's")
		assert.Contains(t, menuNames, c.menu)
		assert.True(t, (c.do == nil) != (c.more == nil), "%s does one thing", c.name)
		names = append(names, c.name)
	}
	// The keys that the driver takes for itself, and those of the board.
	for _, c := range b.commands() {
		assert.NotContains(t, []string{"Space", "Escape", "Tab", "Return", "BackSpace"}, c.plain)
	}
}

// Shortcuts of editing are the field's that is typed into.
func TestShortcutsGoToTheField(t *testing.T) {
	b := yard(t)
	b.selectOnly(west(b))
	was := b.bytes()
	entry := b.next.fall
	b.win.Canvas().Focus(entry)
	entry.SetText("")
	b.typed("1/4")
	b.command("Select all")
	assert.Equal(t, "1/4", entry.SelectedText())
	assert.Equal(t, 1, b.desk.Selection().Len(), "the board's selection stays")
	b.command("Copy")
	assert.Equal(t, "1/4", b.app.Clipboard().Content())
	b.command("Cut")
	assert.Empty(t, entry.Text)
	b.command("Paste")
	assert.Equal(t, "1/4", entry.Text)
	b.command("Undo")
	assert.Empty(t, entry.Text)
	b.menus["Redo"].Action() // greyed for the site, and yet the field's
	assert.Equal(t, "1/4", entry.Text)
	assert.Equal(t, was, b.bytes())

	b.board.Focus()
	b.command("Undo")
	assert.NotEqual(t, was, b.bytes(), "with the board in hand it is the site's")
}

// Plain keys and letters do what the menus say, and nothing while a dialog is
// open.
func TestPlainKeys(t *testing.T) {
	b := yard(t)
	for _, e := range hand.Kit() {
		if e.Name == hand.StackName { // needs two levels
			continue
		}
		b.typed(strings.ToLower(e.Key))
		assert.Equal(t, e.Name, b.board.Tool().Name())
		marked := slices.DeleteFunc(slices.Clone(b.kit.rows), func(r *kitRow) bool { return !r.chosen })
		require.Len(t, marked, 1)
		assert.Equal(t, e.Name, marked[0].entry.Name)
		b.key(fyne.KeyEscape)
		assert.Equal(t, "Pick", b.board.Tool().Name(), "Escape from %s", e.Name)
	}
	remember(t, b)
	b.typed("+")
	assert.InDelta(t, 1.5, b.board.View().Scale/seen, 1e-9)
	b.typed("-")
	assert.InDelta(t, 1, b.board.View().Scale/seen, 1e-9)
	away(t, b)
	b.key(fyne.KeyHome)
	sees(t, b, ft(-40, 0), true)
	b.selectOnly(west(b))
	b.key(fyne.KeyDelete)
	assert.Len(t, b.desk.Site().Network.Pipes, 1)
	b.key(fyne.KeyF5)
	assert.True(t, b.desk.Planning().Running)
	b.rest()
	b.key(fyne.KeyF1)
	assert.Contains(t, b.dialogText(), "Keys and mouse")
	was := b.bytes()
	b.selectAll()
	b.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyDelete})
	b.win.Canvas().OnTypedRune()('p')
	b.menus["Delete"].Action()
	assert.Equal(t, was, b.bytes())
	assert.Equal(t, "Pick", b.board.Tool().Name())
}

func TestEveryToolByItsRow(t *testing.T) {
	b := yard(t)
	for _, r := range b.kit.rows {
		if r.entry.Name == hand.StackName {
			test.Tap(r)
			assert.Contains(t, b.dialogText(), "A stack joins two levels")
			b.press("Close")
			continue
		}
		r.MouseIn(&desktop.MouseEvent{})
		test.Tap(r)
		r.MouseOut()
		assert.Equal(t, r.entry.Name, b.board.Tool().Name())
		assert.NotEmpty(t, b.status.hint.Text)
	}
	levels(t, b)
	b.typed("z")
	assert.Equal(t, hand.StackName, b.board.Tool().Name())
	require.True(t, b.do(edit.AddLevel(b.desk.Site(), "Roof", unit.Feet(20))))
	b.typed("kz")
	b.choose("Stack to Roof")
	assert.Equal(t, hand.StackName, b.board.Tool().Name())
}

// A list that is left without a choice gives the keys back: the letters take the
// tools in hand as ever.
func TestListGivesTheKeysBack(t *testing.T) {
	b := empty(t)
	b.next.class.list.Tapped(nil)
	require.NotNil(t, b.win.Canvas().Overlays().Top())
	b.win.Canvas().Overlays().Top().Hide()
	require.Same(t, b.next.class.list, b.win.Canvas().Focused())
	b.typed("p")
	assert.Equal(t, "Pipe", b.board.Tool().Name())
	assert.Same(t, b.board, b.win.Canvas().Focused())
	b.win.Canvas().Focus(b.next.class.list)
	b.key(fyne.KeyEscape)
	assert.Same(t, b.board, b.win.Canvas().Focused())
}
