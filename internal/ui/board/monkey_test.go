package board

import (
	"math/rand/v2"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
	"linemap/internal/ui/hand"
)

// monkey does anything with mouse, keys, wheel and window.
type monkey struct {
	*bench
	*rand.Rand
	x, y   float32
	button desktop.MouseButton
	mods   fyne.KeyModifier
}

func one[T any](m *monkey, of ...T) T { return of[m.IntN(len(of))] }

func (m *monkey) chance(of float64) bool { return m.Float64() < of }

// aim puts the pointer somewhere, often where there is something.
func (m *monkey) aim() {
	net := &m.desk.Site().Network
	switch n := m.IntN(100); {
	case n < 50 && len(net.Nodes) > 0:
		p := m.onScreen(m.view.Dot(net.Nodes[m.IntN(len(net.Nodes))].At).X, m.view.Dot(net.Nodes[m.IntN(len(net.Nodes))].At).Y)
		m.x, m.y = p.X+float32(m.NormFloat64()*4), p.Y+float32(m.NormFloat64()*4)
	case n < 80:
		m.x, m.y = m.x+float32(m.NormFloat64()*20), m.y+float32(m.NormFloat64()*20)
	case n < 82:
		m.x, m.y = one(m, float32(-1e9), 0, 1e9), one(m, float32(-1e9), 0, 1e9)
	default:
		m.x, m.y = m.Float32()*wide, m.Float32()*high
	}
}

func (m *monkey) onScreen(x, y float64) fyne.Position {
	return fyne.NewPos(float32(min(max(x, -50), wide+50)), float32(min(max(y, -50), high+50)))
}

func (m *monkey) step() {
	switch n := m.IntN(1000); {
	case n < 420:
		m.pointerMoves()
	case n < 640:
		m.presses()
	case n < 720:
		m.aim()
		m.scroll(m.x, m.y, one(m, float32(0), 0, 0, 10), one(m, float32(10), -10, 25, -25, 0, 400, -400))
	case n < 860:
		m.types()
	case n < 900:
		m.SetTool(one(m, hand.Kit()...).New())
	case n < 905:
		m.SetTool(hand.NewStack(one(m, "", "Ground floor", "no such level")))
	case n < 930:
		m.undoes()
	case n < 940 && len(m.desk.Site().Network.Levels) > 0:
		m.desk.SetLevel(one(m, m.desk.Site().Network.Levels...).Name)
	case n < 950:
		one(m, func() { m.Fit() }, func() { m.ZoomBy(m.Float64() * 3) }, func() { m.ShowGhosts(m.chance(0.5)) }, func() { m.ShowPlan(m.chance(0.7)) },
			func() { m.Light(m.IntN(12)) }, func() { m.ZoomTo(m.desk.Selection().Refs()...) })()
	case n < 952:
		m.win.Resize(fyne.NewSize(200+m.Float32()*1600, 150+m.Float32()*1000))
	case n < 953:
		fyne.CurrentApp().Settings().SetTheme(one(m, day, night))
		m.Refresh()
	case n < 970:
		m.answers()
	default:
		m.take()
		m.clock = m.clock.Add(time.Duration(m.IntN(600)) * time.Millisecond)
	}
}

func (m *monkey) pointerMoves() {
	x, y := m.x, m.y
	m.aim()
	switch {
	case m.button != 0 && m.button != desktop.MouseButtonSecondary && m.chance(0.95):
		m.Dragged(&fyne.DragEvent{PointEvent: at(m.x, m.y), Dragged: fyne.NewDelta(m.x-x, m.y-y)})
	case m.chance(0.02):
		m.MouseOut()
	default:
		m.MouseMoved(m.mouse(m.x, m.y, 0, m.mods))
	}
}

func (m *monkey) presses() {
	if m.button != 0 && m.chance(0.8) {
		m.MouseUp(m.mouse(m.x, m.y, m.button, m.mods))
		m.DragEnd()
		m.button = 0
		return
	}
	if m.chance(0.7) {
		m.aim()
	}
	m.button = one(m, desktop.MouseButtonPrimary, desktop.MouseButtonPrimary, desktop.MouseButtonPrimary, desktop.MouseButtonPrimary,
		desktop.MouseButtonSecondary, desktop.MouseButtonTertiary)
	m.MouseDown(m.mouse(m.x, m.y, m.button, m.mods))
}

func (m *monkey) types() {
	switch n := m.IntN(10); {
	case n < 3:
		m.TypedKey(&fyne.KeyEvent{Name: one(m, fyne.KeyReturn, fyne.KeyEscape, fyne.KeyEscape, fyne.KeyBackspace, fyne.KeyDelete, fyne.KeyLeft,
			fyne.KeyUp, fyne.KeyTab, fyne.KeySpace, fyne.KeyF5, fyne.KeyName(""))})
	case n < 6:
		m.TypedRune(one(m, []rune("0123456789.'\"-/<@ rlftmpcxé\x00")...))
	case n < 9:
		key := one(m, desktop.KeyShiftLeft, desktop.KeyControlLeft, desktop.KeyAltLeft, fyne.KeySpace)
		bit := map[fyne.KeyName]fyne.KeyModifier{
			desktop.KeyShiftLeft: fyne.KeyModifierShift, desktop.KeyControlLeft: fyne.KeyModifierControl, desktop.KeyAltLeft: fyne.KeyModifierAlt,
		}[key]
		if m.chance(0.4) {
			m.mods |= bit
			m.KeyDown(&fyne.KeyEvent{Name: key})
		} else {
			m.mods &^= bit
			m.KeyUp(&fyne.KeyEvent{Name: key})
		}
	case m.chance(0.5):
		m.FocusLost()
	default:
		m.Focus()
	}
}

func (m *monkey) undoes() {
	if m.chance(0.5) {
		m.desk.Undo()
	} else {
		m.desk.Redo()
	}
}

// answers fills in the field that a tool asked for, or leaves it.
func (m *monkey) answers() {
	pop, ok := m.win.Canvas().Overlays().Top().(*widget.PopUp)
	if !ok {
		return
	}
	if m.chance(0.3) {
		pop.Hide()
		return
	}
	entry := pop.Content.(*question)
	entry.OnSubmitted(one(m, "", "12 ft", "12-6", "3.2 m", "mind the step", "-1", "1e999"))
}

// A monkey at the board: no panic, and what comes out is a site that can be
// kept. The sketch is laid out anew now and then, lest all that is left is what
// the monkey made of it.
func TestMonkey(t *testing.T) {
	events, each := 50_000, 5000
	if testing.Short() {
		events, each = 5000, 2500
	}
	for round := range events / each {
		m := &monkey{bench: demo(t, "flats"), Rand: rand.New(rand.NewPCG(uint64(round), 11))}
		for range each {
			m.step()
		}
		m.rest()
		require.Greater(t, m.desk.Revision(), each/50, "it drew something")
		data, err := site.Encode(m.desk.Site())
		require.NoError(t, err)
		_, err = site.Decode(data)
		require.NoError(t, err)
		require.Same(t, m.shown.job, m.asked, "the board shows what was asked for last")
		for m.desk.Undo() != "" {
		}
		fresh, err := site.Demo("flats")
		require.NoError(t, err)
		want, err := site.Encode(fresh)
		require.NoError(t, err)
		got, err := site.Encode(m.desk.Site())
		require.NoError(t, err)
		require.Equal(t, string(want), string(got), "all of it can be undone")
	}
}
