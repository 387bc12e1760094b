package linestrip

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/export/drawing"
	"linemap/internal/unit"
)

// A run of 300 ft with 200 ft of it in pipe on 120 mm of paper: by hand, of the
// 115.2 mm within the blanks the ground may take 16 %, and the pipe has the rest.
func TestScaleByHand(t *testing.T) {
	l := Line{Lay: unit.Feet(100), End: unit.Feet(300), Far: true}
	s := l.Scale(120)
	assert.True(t, s.Cut)
	assert.InDelta(t, 115.2*0.84/200, s.PerMetre*0.3048, 1e-9, "millimetres per foot")
	assert.InDelta(t, 2.4, s.Y(0), 1e-9)
	assert.InDelta(t, 2.4+115.2*0.16, s.Y(unit.Feet(100)), 1e-9)
	assert.InDelta(t, 120-2.4, s.Y(unit.Feet(300)), 1e-9)

	short := Line{Lay: unit.Feet(10), End: unit.Feet(100)}
	s = short.Scale(54.8)
	assert.False(t, s.Cut, "a tenth of the run needs no break")
	assert.InDelta(t, 0.5, s.PerMetre*0.3048, 1e-9)
	assert.InDelta(t, 7.4, s.Y(unit.Feet(10)), 1e-9)
}

// In pipe, equal lengths of hose are equal lengths on paper, whatever the run.
func TestPipeIsToScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ft := func(name string) unit.Length { return unit.Feet(rapid.Float64Range(0, 400).Draw(t, name)) }
		l := Line{Lay: ft("lay")}
		l.End = l.Lay + ft("pipe") + 0.01
		height := rapid.Float64Range(20, 240).Draw(t, "height")
		s := l.Scale(height)
		at := func() unit.Length {
			return l.Lay + unit.Length(rapid.Float64Range(0, 1).Draw(t, "at"))*(l.End-l.Lay)
		}
		a, b := at(), at()
		assert.InDelta(t, s.PerMetre*(b-a).Metres(), s.Y(b)-s.Y(a), 1e-9)
		assert.InDelta(t, height-pad, s.Y(l.End), 1e-9)
		assert.InDelta(t, pad, s.Y(0), 1e-9)
		assert.Greater(t, s.Y(l.End)-s.Y(l.Lay), 0.83*(height-2*pad), "the pipe has the room")
	})
}

// Rows keep their order, never overlap, stay on the strip, and lie at their
// marks where there is room.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		heights := rapid.SliceOfN(rapid.Float64Range(4, 15), 1, 20).Draw(t, "heights")
		total := max(sum(heights), rapid.Float64Range(10, 200).Draw(t, "total"))
		wanted := make([]float64, len(heights))
		at := 0.0
		for i := range wanted {
			at = min(total, at+rapid.Float64Range(0, 30).Draw(t, "gap"))
			wanted[i] = at
		}
		tops := Spread(wanted, heights, 2, total)
		low := 0.0
		for i, top := range tops {
			assert.GreaterOrEqual(t, top, low-1e-9)
			low = top + heights[i]
		}
		assert.LessOrEqual(t, low, total+1e-9)
	})
	assert.Equal(t, []float64{8, 18}, Spread([]float64{10, 20}, []float64{5, 5}, 2, 40))
	assert.Equal(t, []float64{8, 13}, Spread([]float64{10, 11}, []float64{5, 5}, 2, 40))
	assert.Equal(t, []float64{0, 5}, Spread([]float64{9, 9}, []float64{5, 5}, 2, 10))
}

// A sign stays in its frame and turns by the angle that it shows.
func TestSigns(t *testing.T) {
	for m := Ahead; m <= Widen; m++ {
		for _, deg := range []float64{0, 11.25, 22.5, 45, 60, 90, 135, 180} {
			for _, s := range Sign(m, unit.Degrees(deg), 0, 0) {
				for _, p := range s.(drawing.Path).Points {
					assert.LessOrEqual(t, math.Max(math.Abs(p.X), math.Abs(p.Y)), SignSize/2+1e-9, "%d at %v", m, deg)
				}
			}
		}
	}
	assert.Nil(t, Sign(Still, 0, 0, 0))
	for deg, m := range map[float64]Move{-45: ToLeft, 22.5: ToRight, 90: ToRight} {
		line := Sign(m, unit.Degrees(math.Abs(deg)), 0, 0)[1].(drawing.Path).Points
		require.Len(t, line, 3)
		in, out := line[1].Sub(line[0]), line[2].Sub(line[1])
		assert.InDelta(t, 0, in.X, 1e-9)
		assert.Positive(t, in.Y, "it comes from below")
		assert.InDelta(t, deg, math.Atan2(out.X, out.Y)*180/math.Pi, 1e-9)
	}
}

// Whatever a plan holds, a strip is drawn with numbers in it.
func TestHostileLines(t *testing.T) {
	for name, l := range map[string]Line{
		"nothing":       {},
		"all at once":   {Lay: 5, End: 5, Step: 3},
		"backwards":     {Lay: 50, End: 5, Pipes: []Pipe{{From: 40, To: 2, Cleaned: true}}, Step: 1},
		"far away":      {Lay: 1, End: 1e9, Pipes: []Pipe{{From: 1, To: 1e9}}, Near: []unit.Length{-5, 1e12}, Step: 3},
		"no room":       {Lay: 1, End: 9, Pipes: []Pipe{{From: 1, To: 9, Hatch: Hatch{Every: 1}}}, Step: 3},
		"a later part":  {From: 20, Lay: 5, End: 30, Pipes: []Pipe{{From: 5, To: 30, Cleaned: true}}, Step: 3},
		"a part of lay": {Lay: 5, End: 5, Pipes: []Pipe{{From: 6, To: 30}}},
	} {
		t.Run(name, func(t *testing.T) {
			height := 60.0
			if name == "no room" {
				height = 1
			}
			list := l.Draw(height, []Stop{{At: l.Lay}, {Kind: FarEnd, At: l.End, Row: 50, X: 30}})
			assert.Less(t, len(list.Items), 200)
			for _, it := range list.Items {
				if p, ok := it.Shape.(drawing.Path); ok {
					for _, pt := range p.Points {
						assert.False(t, math.IsNaN(pt.X+pt.Y) || math.Abs(pt.Y) > 70, "%v", pt)
					}
				}
			}
		})
	}
}
