package ui

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route/advice"
	"linemap/internal/site"
	"linemap/internal/site/edit"
)

// clipped lists what cannot be read whole: text and buttons that reach out of
// what they lie in, or of the window, or that have less room than they need. What
// can be scrolled to is not clipped.
func clipped(o fyne.CanvasObject, window fyne.Size) (all []string) {
	const slack = 1.5 // pixels: rounding
	screen := rect{0, 0, window.Width, window.Height}
	walkIn(o, o.Position(), screen, "", func(o fyne.CanvasObject, f frame) {
		what := ""
		least := fyne.Size{}
		switch v := o.(type) {
		case *canvas.Text:
			if v.Text == "" {
				return
			}
			// As high as its frame, as wide as its words.
			what, least = v.Text, fyne.NewSize(v.MinSize().Width, 0)
			if v.Alignment != fyne.TextAlignLeading {
				least = fyne.Size{}
			}
			f.size = fyne.NewSize(max(least.Width, 1), f.size.Height)
		case *widget.Button:
			what, least = "button "+v.Text, v.MinSize()
		case *widget.Select:
			what, least = "choice "+v.Selected, fyne.NewSize(0, v.MinSize().Height)
		case *widget.Check:
			what, least = "box "+v.Text, v.MinSize()
		case *widget.Entry:
			what, least = "field "+v.Text, fyne.NewSize(30, 0)
		default:
			return
		}
		in := f.within
		if f.at.X < in.x0-slack || f.at.Y < in.y0-slack || f.at.X+f.size.Width > in.x1+slack || f.at.Y+f.size.Height > in.y1+slack {
			all = append(all, fmt.Sprintf("%q at %v, %v reaches out of %v in %s", what, f.at, f.size, in, f.path))
		}
		if least.Width > f.size.Width+slack || least.Height > f.size.Height+slack {
			all = append(all, fmt.Sprintf("%q has %v, needs %v in %s", what, f.size, least, f.path))
		}
	})
	return all
}

// TestNothingClips looks at the window and its dialogs in sizes of windows and of
// text.
func TestNothingClips(t *testing.T) {
	much, rigs := muchAdvice(t)
	for _, size := range []fyne.Size{{Width: 1280, Height: 800}, {Width: 1024, Height: 700}, {Width: 1920, Height: 1080}} {
		for _, scale := range []float64{1, 1.5} {
			if raced && (size.Width != wide || scale != 1) {
				continue
			}
			t.Run(fmt.Sprintf("%v by %v, text %v", size.Width, size.Height, scale), func(t *testing.T) {
				b := newBench(t)
				b.prefs.SetFloat(prefScale, scale)
				b.prefs.applyTheme(b.app)
				b.win.Resize(size)
				look := func(what string) {
					t.Helper()
					b.layOut()
					assert.Empty(t, clipped(b.win.Content(), b.win.Canvas().Size()), what)
					if d := b.dialog(); d != nil {
						assert.Empty(t, clipped(d, b.win.Canvas().Size()), "the dialog of %s", what)
					}
				}
				b.until("the demo sites", func() bool { return demosShown(b) })
				look("welcome")
				b.startGuide()
				look("guide")
				b.endGuide()
				b.openDemo("restaurant")
				b.rest()
				look("planned")
				s := b.desk.Site()
				for _, r := range []edit.Ref{
					edit.PipeRef(s.Network.Pipes[0].ID), edit.NodeRef(s.Network.Nodes[0].ID), edit.SpotRef(s.Spots[0].ID), edit.WaterRef(s.Water[0].ID),
				} {
					b.selectOnly(r)
					look("card of " + string(r.Kind))
				}
				for _, c := range b.commands() {
					switch c.name {
					case "Turn by…", "Export papers…", "What the runs by hand cost…", "Job and customer…", "Rig, hoses and nozzles…", "Rig library…",
						"Prices…", "Results of a visit…", "Levels…", "Units, paper and code…", "Place on Earth…", "Keys and mouse", "Signs on the board", "Safety", "About linemap":
						b.command(c.name)
						look(c.name)
						b.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
					}
				}
				b.command("What would be better…")
				look("advice being worked out")
				tabs := b.advice()
				for i := range tabs.Items {
					tabs.SelectIndex(i)
					look("advice: " + tabs.Items[i].Text)
				}
				b.press("Close")
				b.showAdvice(much, rigs)
				for i := range b.advice().Items {
					b.advice().SelectIndex(i)
					look("much advice: " + b.advice().Items[i].Text)
				}
				b.press("Close")
				b.do(edit.PlaceSpot(b.desk.Site(), ft(5, -30)))
				b.newSite()
				look("question before changes are lost")
			})
		}
	}
}

// advice waits for the dialog of the advice and gives its tabs.
func (b *bench) advice() (tabs *container.AppTabs) {
	b.t.Helper()
	b.until("the advice", func() bool {
		if b.dialog() != nil {
			tabs = find(b.dialog(), func(*container.AppTabs) bool { return true })
		}
		return tabs != nil
	})
	return tabs
}

// muchAdvice is the advice on a site with a weak pump, few openings, its one spot
// far off and room for the trailer nearby, so that every table has rows.
func muchAdvice(t *testing.T) (*advice.Report, []rig.Rig) {
	t.Helper()
	s, err := site.Open("../../assets/demo/restaurant.linemap")
	require.NoError(t, err)
	s.Spots, s.Lays, s.Water = s.Spots[:1], nil, nil
	s.Spots[0].At = ft(150, 150)
	s.Rig.Pump.Unloader /= 3
	for i := range s.Network.Nodes {
		if n := &s.Network.Nodes[i]; n.Access != nil && n.Access.Kind != network.TwoWayCleanout {
			n.Access.OutOfService = true
		}
	}
	s.Areas = []site.Area{{ID: "a1", Kind: site.Stand, Label: "Forecourt of the house next door", Outline: []network.Point{
		ft(-60, -60), ft(60, -60), ft(60, 60), ft(-60, 60),
	}}}
	rigs, err := site.OwnRigs()
	require.NoError(t, err)
	tables, err := site.LoadTables()
	require.NoError(t, err)
	r, err := advice.On(t.Context(), s, tables, rigs, nil)
	require.NoError(t, err)
	for i, table := range r.Tables(s.Units) {
		assert.NotEmpty(t, table.Rows, "table %d: %v", i, table.Title)
	}
	return r, rigs
}

// What stands in a row of a table of advice stands in line, however many rows.
func TestAdviceStandsInLine(t *testing.T) {
	t.Setenv("LANG", "en_US.UTF-8")
	newApp()
	table := advice.Table{Head: []string{"Place", "Saves"}}
	actions := make([]func(), 40)
	for i := range actions {
		table.Rows = append(table.Rows, []string{strings.Repeat("x", i), "1 min"})
		actions[i] = func() {}
	}
	scroll := adviceTable(table, actions)
	scroll.Resize(fyne.NewSize(500, 300))
	last, rows := float32(-1), map[float32]int{}
	walk(scroll, func(o fyne.CanvasObject, f frame) {
		switch o.(type) {
		case *widget.Button, *widget.Label:
			rows[f.at.Y]++
			last = max(last, f.at.Y)
		}
	})
	assert.Len(t, rows, 42, "a head, 40 rows and what is said below")
	for y, n := range rows {
		if y < last {
			assert.Equal(t, 3, n, "at %v", y)
		}
	}
}

// The level is chosen at the right end of the bar: it must not take scrolling to
// reach it on a small screen.
func TestTheBarFitsASmallWindow(t *testing.T) {
	b := demo(t, "restaurant")
	b.win.Resize(fyne.NewSize(1024, 700))
	b.layOut()
	end := b.driver.AbsolutePositionForObject(b.next.level).X + b.next.level.Size().Width
	assert.LessOrEqual(t, end, float32(1024))
}
