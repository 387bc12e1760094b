package hand

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/view"
	"linemap/internal/unit"
)

// monkey does anything with all tools.
type monkey struct {
	*bench
	*rand.Rand
	down bool
}

func one[T any](m *monkey, of ...T) T { return of[m.IntN(len(of))] }

func (m *monkey) chance(of float64) bool { return m.Float64() < of }

// somewhere is a place, often one where there is something.
func (m *monkey) somewhere() network.Point {
	net := &m.world.Site.Network
	jitter := func(by float64) unit.Length { return unit.Metres((m.Float64() - 0.5) * by) }
	switch n := m.IntN(100); {
	case n < 45 && len(net.Nodes) > 0:
		p := net.Nodes[m.IntN(len(net.Nodes))].At
		by := one(m, 0, 0.3, 3)
		return network.Point{X: p.X + jitter(by), Y: p.Y + jitter(by)}
	case n < 60 && len(net.Pipes) > 0:
		if line := lineOf(&m.world, pipeRef(net, m.IntN(len(net.Pipes)))); line != nil {
			i := m.IntN(len(line) - 1)
			k := unit.Length(m.Float64())
			return network.Point{X: line[i].X + k*(line[i+1].X-line[i].X), Y: line[i].Y + k*(line[i+1].Y-line[i].Y)}
		}
	case n < 68 && len(m.world.Site.Spots) > 0:
		return m.world.Site.Spots[m.IntN(len(m.world.Site.Spots))].At
	case n < 70 && len(m.world.Site.Underlays) > 0:
		return m.world.Site.Underlays[0].At
	case n < 71:
		odd := []float64{math.NaN(), math.Inf(1), 1e5, -1e5, 1e9, 1e300, 0}
		return network.Point{X: unit.Metres(one(m, odd...)), Y: unit.Metres(one(m, odd...))}
	case n < 80:
		return m.last.At
	}
	return network.Point{X: jitter(60), Y: jitter(60)}
}

func (m *monkey) step() {
	switch n := m.IntN(100); {
	case n < 3:
		m.tool = one(m, Kit()...).New()
	case n < 5:
		m.tool = one[Tool](m, NewDraw(), NewDraw(), NewPick(), NewLay(), NewArea()) // most is done with these
	case n < 6:
		m.world.View.Scale = one(m, view.MinScale, 1, 20, 20, 20, 50, 400, view.MaxScale)
		m.world.Grid = m.world.View.Grid(m.world.Site.Units).Step
	case n < 7:
		m.world.Style.Size = one(m, unit.Size(2), 3, 4, 6)
		m.world.Snap = m.chance(0.8)
	case n < 8 && len(m.world.Site.Network.Levels) > 0:
		m.world.Level = one(m, m.world.Site.Network.Levels...).Name
	case n < 9:
		if m.chance(0.5) {
			m.history.Undo()
		} else {
			m.history.Redo()
		}
		m.look()
		m.world.Selection = m.world.Selection.Keep(edit.Everything(m.history.Site()).Has)
	case n < 12 && m.answer != nil:
		m.follow(m.answer(one(m, "", "12 ft", "12-6", "3.2 m", "mind the step", "-1", "1e999")))
		m.answer = nil
	default:
		m.input()
	}
}

// input is what pointer and keys do.
func (m *monkey) input() {
	ev := m.last
	ev.Shift, ev.Ctrl, ev.Alt = m.chance(0.1), m.chance(0.05), m.chance(0.1)
	ev.Clicks = one(m, 1, 1, 1, 1, 1, 1, 1, 1, 1, 2, 2, 3)
	switch n := m.IntN(100); {
	case n < 10:
		ev.Kind, ev.Key = Key, one(m, "Return", "Escape", "BackSpace", "Delete", "Left", "Right", "Up", "Down", "Tab", "Insert", "KP_Enter", "F7", "")
	case n < 16:
		ev.Kind, ev.Rune = Rune, one(m, []rune("0123456789.'\"-/<@ rlftmpcxé")...)
	case n < 17:
		ev.Kind = Leave
	case n < 64:
		ev.Kind = Press
		if m.down {
			ev.Kind = Release
		}
		m.down = !m.down
		ev.Right = m.chance(0.07)
		if m.chance(0.8) {
			m.aim(&ev)
		}
	default:
		ev.Kind = Move
		if m.down && m.chance(0.95) {
			ev.Kind = Drag
		}
		m.aim(&ev)
	}
	m.give(ev)
	m.last.At, m.last.Dot = ev.At, ev.Dot
}

func (m *monkey) aim(ev *Event) {
	ev.At = m.somewhere()
	ev.Dot = m.world.View.Dot(ev.At)
}

// check holds that the site can be kept in a file.
func (m *monkey) check() {
	data, err := site.Encode(m.history.Site())
	require.NoError(m.t, err)
	_, err = site.Decode(data)
	require.NoError(m.t, err)
}

// backOut holds that Escape leads back to the pick, and changes nothing.
func (m *monkey) backOut() {
	const most = 400 // corners that a monkey may have drawn
	for range most {
		if m.tool.Name() == "Pick" && !m.tool.Busy() && m.world.Selection.Len() == 0 {
			break
		}
		m.do("key Escape")
		require.Nil(m.t, m.reply.Edit)
		require.NoError(m.t, m.reply.Err)
	}
	assert.Equal(m.t, "Pick", m.tool.Name())
	assert.False(m.t, m.tool.Busy())
}

func TestMonkey(t *testing.T) {
	events, each := 50_000, 1000
	if testing.Short() {
		events = 5000
	}
	demos, err := site.Demos()
	require.NoError(t, err)
	for round := range events / each {
		s := empty(t)
		if round%5 == 1 {
			s, err = site.Demo(demos[round%len(demos)])
			require.NoError(t, err)
		}
		if round%5 == 2 {
			s.Network.Levels = append(s.Network.Levels, levels...)
			s.Underlays = append(s.Underlays, underlay("u1", 3, 3, false), underlay("u2", 0, 0, true))
		}
		m := &monkey{bench: newBench(t, s), Rand: rand.New(rand.NewPCG(uint64(round), 7))}
		for i := range each {
			func() {
				defer func() {
					if r := recover(); r != nil {
						t.Logf("round %d, event %d, tool %s", round, i, m.tool.Name())
						panic(r)
					}
				}()
				m.step()
			}()
			if i%500 == 499 {
				m.check()
			}
			if i%250 == 249 {
				m.backOut()
			}
		}
	}
}
