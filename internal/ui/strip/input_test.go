package strip

import (
	"fmt"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/route"
	"linemap/internal/site"
)

// heard is a strip on the short day, and all that it told the window.
type heard struct {
	*Strip
	win   fyne.Window
	times []time.Duration
	said  []string
}

// shown shows the short day at about ten pixels a minute.
func shown(t testing.TB) *heard {
	h := &heard{}
	say := func(format string, a ...any) { h.said = append(h.said, fmt.Sprintf(format, a...)) }
	h.Strip = New(Acts{
		Light:   func(run int) { say("light %d", run) },
		At:      func(at time.Duration) { h.times = append(h.times, at) },
		Menu:    func(run int, at fyne.Position) { say("menu %d at %.0f,%.0f", run, at.X, at.Y) },
		Playing: func(on bool) { say("playing %v", on) },
		Key:     func(k *fyne.KeyEvent) { say("key %s", k.Name) },
		Rune:    func(r rune) { say("rune %c", r) },
	})
	h.win = window(t, h.Strip, themeOf(theme.VariantLight, 1), 1000, 150)
	d := shortDay()
	h.SetPlan(d.site, d.plan, false)
	return h
}

// on is where a time lies in a row.
func (h *heard) on(row func(rows) band, minutes float64) fyne.Position {
	b := row(h.stack())
	x := h.span.x(time.Duration(minutes * float64(time.Minute)))
	return fyne.NewPos(float32(x), float32(b.y+b.h/2))
}

func clockRowOf(r rows) band { return r.clock }
func runsRow(r rows) band    { return r.runs }
func crewRow(r rows) band    { return r.crew }
func tankRow(r rows) band    { return r.tank }

func (h *heard) move(to fyne.Position) {
	h.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: to}})
}

// dragTo drags in steps, as a pointer does.
func (h *heard) dragTo(from, to fyne.Position) {
	const steps = 5
	at := from
	for i := 1; i <= steps; i++ {
		next := fyne.NewPos(from.X+(to.X-from.X)*float32(i)/steps, from.Y+(to.Y-from.Y)*float32(i)/steps)
		h.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: next}, Dragged: fyne.NewDelta(next.X-at.X, next.Y-at.Y)})
		at = next
	}
	h.DragEnd()
}

func (h *heard) near(t testing.TB, minutes float64) {
	t.Helper()
	assert.InDelta(t, minutes, h.Time().Minutes(), 0.01)
}

func TestTapOnTime(t *testing.T) {
	h := shown(t)
	test.TapCanvas(h.win.Canvas(), h.on(clockRowOf, 30))
	h.near(t, 30)
	test.TapCanvas(h.win.Canvas(), h.on(tankRow, 60))
	h.near(t, 60)
	assert.Len(t, h.times, 2)
	assert.Empty(t, h.said)
	assert.Equal(t, fyne.Focusable(h.Strip), h.win.Canvas().Focused())
}

func TestTapOnRun(t *testing.T) {
	h := shown(t)
	test.TapCanvas(h.win.Canvas(), h.on(crewRow, 30))
	assert.True(t, h.shown.lit.Visible())
	test.TapCanvas(h.win.Canvas(), h.on(runsRow, 60))
	test.TapCanvas(h.win.Canvas(), h.on(runsRow, 60))
	assert.False(t, h.shown.lit.Visible())
	test.TapCanvas(h.win.Canvas(), h.on(crewRow, 30))
	test.TapCanvas(h.win.Canvas(), h.on(crewRow, 5)) // no run
	assert.Equal(t, []string{"light 1", "light 2", "light 0", "light 1", "light 0"}, h.said)
	assert.Zero(t, h.Time())

	h.Lit(2)
	assert.True(t, h.shown.lit.Visible())
	assert.InDelta(t, h.span.x(55*time.Minute), float64(h.shown.lit.Position().X), 2)
	h.Lit(0)
	assert.False(t, h.shown.lit.Visible())
}

func TestHover(t *testing.T) {
	h := shown(t)
	test.TapCanvas(h.win.Canvas(), h.on(crewRow, 60))
	h.said = nil
	h.move(h.on(crewRow, 30))
	h.move(h.on(crewRow, 31))
	assert.True(t, h.shown.frame.Visible())
	assert.Equal(t, "Jetting run 1, clean pass: 7:50 am to 8:10 am, 20 min, jets 0 gal, tank from 264 gal to 159 gal",
		h.shown.words.Text)
	h.move(h.on(runsRow, 30))
	assert.Contains(t, h.shown.words.Text, "Run 1")
	assert.Contains(t, h.shown.words.Text, "30 min")
	assert.Equal(t, desktop.PointerCursor, h.Cursor())
	h.move(h.on(runsRow, 60))
	assert.Contains(t, h.shown.words.Text, "kept by hand")
	h.move(h.on(tankRow, 47))
	assert.Equal(t, desktop.HResizeCursor, h.Cursor())
	assert.Contains(t, h.shown.words.Text, "Towing the trailer to Lane")
	h.MouseOut()
	assert.False(t, h.shown.frame.Visible())
	assert.Contains(t, h.shown.words.Text, "2 runs, 7:30 am to 8:55 am, 1 h 25 min")
	assert.Equal(t, []string{"light 1", "light 2"}, h.said, "the chosen run is lit again")
}

func TestMenu(t *testing.T) {
	h := shown(t)
	at := h.on(crewRow, 30)
	test.TapSecondaryAt(h.Strip, at)
	test.TapSecondaryAt(h.Strip, h.on(crewRow, 5))
	test.TapSecondaryAt(h.Strip, h.on(clockRowOf, 30))
	require.Len(t, h.said, 1)
	assert.Contains(t, h.said[0], "menu 1 at")
}

func TestDragMarker(t *testing.T) {
	h := shown(t)
	h.SetTime(20 * time.Minute)
	h.dragTo(h.on(crewRow, 20), h.on(crewRow, 70)) // by the marker
	h.near(t, 70)
	assert.Len(t, h.times, 6)
	h.dragTo(h.on(tankRow, 10), h.on(crewRow, 40)) // from the tank
	h.near(t, 40)
	h.dragTo(h.on(clockRowOf, 40), fyne.NewPos(-500, 300)) // beyond the strip
	h.near(t, 0)
	h.dragTo(h.on(clockRowOf, 5), fyne.NewPos(5000, -300))
	h.near(t, 85)
	assert.Equal(t, 85*time.Minute, h.span.shown, "nothing scrolled")
}

func TestZoomAndScroll(t *testing.T) {
	h := shown(t)
	at := h.on(crewRow, 30)
	h.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.NewDelta(0, 60)})
	assert.InDelta(t, 85/2.46, h.span.shown.Minutes(), 0.1)
	assert.InDelta(t, float64(at.X), h.span.x(30*time.Minute), 0.1, "the time at the pointer stays")
	from := h.span.from
	h.dragTo(at, at.AddXY(-100, 0))
	assert.InDelta(t, 100/h.span.width*h.span.shown.Minutes(), (h.span.from - from).Minutes(), 0.01)
	h.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.NewDelta(25, 0)})
	assert.InDelta(t, from.Minutes(), h.span.from.Minutes(), 0.01, "sideways it scrolls")
	h.SetTime(80 * time.Minute)
	assert.True(t, h.span.from <= h.Time() && h.Time() <= h.span.to(), "the marker is brought into view")
	seen := h.span
	d := shortDay()
	h.SetPlan(d.site, d.plan, false)
	assert.Equal(t, seen, h.span, "another plan is looked at as the one before")
	for range 9 {
		h.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.NewDelta(0, -50)})
	}
	assert.Equal(t, 85*time.Minute, h.span.shown)
	h.win.Resize(fyne.NewSize(600, 200))
	assert.InDelta(t, 600-margin, h.span.left+h.span.width, 0.01, "the day takes the room there is")
}

func TestKeys(t *testing.T) {
	h := shown(t)
	h.win.Canvas().Focus(h.Strip)
	press := func(keys ...fyne.KeyName) {
		for _, k := range keys {
			h.TypedKey(&fyne.KeyEvent{Name: k})
		}
	}
	press(fyne.KeyRight)
	h.near(t, 10)
	press(fyne.KeyRight, fyne.KeyRight)
	h.near(t, 40)
	press(fyne.KeyLeft)
	h.near(t, 20)
	press(fyne.KeyDown)
	h.near(t, 55)
	press(fyne.KeyReturn, desktop.KeyMenu, fyne.KeyReturn)
	press(fyne.KeyUp)
	h.near(t, 10)
	press(fyne.KeyEnd)
	h.near(t, 85)
	press(fyne.KeyRight)
	h.near(t, 85)
	press(fyne.KeyHome, fyne.KeyLeft)
	h.near(t, 0)
	press(fyne.KeyF5)
	h.TypedRune('+')
	assert.Less(t, h.span.shown, 85*time.Minute)
	h.TypedRune('-')
	h.TypedRune('+')
	h.TypedRune('0')
	assert.Equal(t, 85*time.Minute, h.span.shown)
	h.TypedRune('p')
	h.TypedRune(' ')
	require.Len(t, h.said, 5)
	assert.Equal(t, []string{"light 2", "light 0", "key F5", "rune p"}, append([]string{h.said[0]}, h.said[2:]...))
	assert.Contains(t, h.said[1], "menu 2 at")
}

// A day plays in about a minute, and a hitch does not make it jump.
func TestPlay(t *testing.T) {
	h := shown(t)
	var tick func(time.Time)
	stopped := 0
	h.player.start = func(f func(time.Time)) func() {
		tick = f
		return func() { stopped++ }
	}
	now := time.Date(2026, 5, 4, 7, 0, 0, 0, time.UTC)
	h.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	require.True(t, h.Playing())
	tick(now)
	h.near(t, 0)
	for range 300 {
		now = now.Add(100 * time.Millisecond)
		tick(now)
	}
	h.near(t, 85.0/2)
	tick(now.Add(time.Hour))
	h.near(t, 85.0/2+85*0.2/60)
	now = now.Add(time.Hour)
	h.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	at := h.Time()
	tick(now.Add(time.Second)) // one that was on its way
	assert.Equal(t, at, h.Time())
	h.Play()
	for i := range 400 {
		tick(now.Add(time.Duration(i) * 100 * time.Millisecond))
	}
	h.near(t, 85)
	assert.False(t, h.Playing())
	assert.Equal(t, 2, stopped)
	h.Play() // again from the start
	h.near(t, 0)
	d := shortDay()
	h.SetPlan(d.site, d.plan, false)
	assert.False(t, h.Playing(), "another plan stops the day")
	assert.Equal(t, []string{"playing true", "playing false", "playing true", "playing false", "playing true", "playing false"}, h.said)
}

// The ticker ticks on the window's goroutine until it is stopped.
func TestTicker(t *testing.T) {
	test.NewTempApp(t)
	ticks := make(chan time.Time, 100)
	stop := startTicker(func(now time.Time) { ticks <- now })
	a, b := <-ticks, <-ticks
	assert.True(t, b.After(a))
	stop()
}

func TestWithoutPlan(t *testing.T) {
	h := shown(t)
	h.SetTime(20 * time.Minute)
	h.times = nil
	h.SetPlan(nil, nil, false)
	h.SetMessage("Nothing to clean yet.")
	assert.True(t, h.shown.message.Visible())
	assert.Equal(t, "Nothing to clean yet.", h.shown.message.Text)
	assert.False(t, h.shown.marker.Visible())
	assert.Zero(t, h.Time())
	h.SetPlan(h.d(), &route.Plan{}, false)
	h.SetTime(time.Minute)
	h.Play()
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeySpace, fyne.KeyReturn, desktop.KeyMenu} {
		h.TypedKey(&fyne.KeyEvent{Name: k})
	}
	at := fyne.NewPos(300, 60)
	h.move(at)
	h.dragTo(at, at.AddXY(50, 0))
	test.TapCanvas(h.win.Canvas(), at)
	test.TapSecondaryAt(h.Strip, at)
	h.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.NewDelta(3, 30)})
	h.win.Canvas().Capture()
	assert.Empty(t, h.times)
	assert.False(t, h.Playing())
}

// Whatever is done to a strip, nothing panics and the marker stays in the day.
func TestAnyEvents(t *testing.T) {
	h := shown(t)
	h.player.start = func(func(time.Time)) func() { return func() {} }
	days := []*day{shortDay(), shortDay(), nil}
	keys := []fyne.KeyName{
		fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeyHome, fyne.KeyEnd, fyne.KeySpace,
		fyne.KeyReturn, desktop.KeyMenu, fyne.KeyEscape,
	}
	rapid.Check(t, func(t *rapid.T) {
		for range rapid.IntRange(1, 60).Draw(t, "events") {
			at := fyne.NewPos(rapid.Float32Range(-50, 1100).Draw(t, "x"), rapid.Float32Range(-20, 180).Draw(t, "y"))
			by := fyne.NewDelta(rapid.Float32Range(-200, 200).Draw(t, "dx"), rapid.Float32Range(-200, 200).Draw(t, "dy"))
			switch rapid.IntRange(0, 10).Draw(t, "event") {
			case 0:
				h.Tapped(&fyne.PointEvent{Position: at})
			case 1:
				h.TappedSecondary(&fyne.PointEvent{Position: at})
			case 2:
				h.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: by})
			case 3:
				h.DragEnd()
			case 4:
				h.move(at)
			case 5:
				h.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: by})
			case 6:
				h.TypedKey(&fyne.KeyEvent{Name: rapid.SampledFrom(keys).Draw(t, "key")})
			case 7:
				h.TypedRune(rapid.SampledFrom([]rune("+-0x ")).Draw(t, "rune"))
			case 8:
				h.Lit(rapid.IntRange(-1, 3).Draw(t, "run"))
			case 9:
				if d := rapid.SampledFrom(days).Draw(t, "day"); d != nil {
					h.SetPlan(d.site, d.plan, by.DX > 0)
				} else {
					h.SetPlan(nil, nil, false)
				}
			case 10:
				h.player.tick(time.Now())
			}
			require.GreaterOrEqual(t, h.Time(), time.Duration(0))
			if h.day == nil {
				require.Zero(t, h.Time())
				continue
			}
			require.LessOrEqual(t, h.Time(), h.day.ends)
			require.GreaterOrEqual(t, h.span.from, time.Duration(0))
			require.LessOrEqual(t, h.span.to(), h.day.ends)
		}
		if rapid.IntRange(0, 4).Draw(t, "look") == 0 { // painting takes the most of the time
			h.win.Canvas().Capture()
		}
	})
}

func (h *heard) d() *site.Site { return shortDay().site }
