package site

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// TestRangeIsWhatCheckTakes holds the ends of a range against Check: the end
// itself passes, one step past it does not.
func TestRangeIsWhatCheckTakes(t *testing.T) {
	s := wholeSite(t)
	for _, c := range []struct {
		of     any
		member string
		with   func(v float64) any
	}{
		{network.Node{}, "invert", func(v float64) any {
			n := s.Network.Nodes[0]
			l := unit.Length(v)
			n.Invert = &l
			return n
		}},
		{network.Node{}, "turn", func(v float64) any {
			n := s.Network.Nodes[0]
			n.Turn = unit.Angle(v)
			return n
		}},
		{network.Pipe{}, "slope", func(v float64) any {
			p := s.Network.Pipes[0]
			f := unit.Slope(v)
			p.Slope = &f
			return p
		}},
		{WaterPoint{}, "flow", func(v float64) any {
			w := s.Water[0]
			w.Flow = unit.Flow(v)
			return w
		}},
		{rig.Rig{}, "pump.rated", func(v float64) any {
			r := s.Rig.Clone()
			r.Pump.Rated = unit.Pressure(v)
			return r
		}},
		{rig.Rig{}, "tank.volume", func(v float64) any {
			r := s.Rig.Clone()
			r.Tank.Volume = unit.Volume(v)
			return r
		}},
		{rig.Rig{}, "hoses.length", func(v float64) any {
			r := s.Rig.Clone()
			r.Hoses[0].Length = unit.Length(v)
			return r
		}},
		{rig.Rig{}, "crew.tow_speed", func(v float64) any {
			r := s.Rig.Clone()
			r.Crew.TowSpeed = unit.Speed(v)
			return r
		}},
		{rig.Rig{}, "water_temperature", func(v float64) any {
			r := s.Rig.Clone()
			r.Water = unit.Temperature(v)
			return r
		}},
	} {
		r, err := RangeOf(c.of, c.member)
		require.NoError(t, err)
		step := 1e-6 * math.Max(1e-3, math.Abs(r.Max))
		assert.NoError(t, Check(c.with(r.Max)), c.member)
		assert.Error(t, Check(c.with(r.Max+step)), c.member)
		if r.Above {
			assert.Error(t, Check(c.with(r.Min)), c.member)
			assert.NoError(t, Check(c.with(r.Min+step)), c.member)
		} else {
			assert.NoError(t, Check(c.with(r.Min)), c.member)
			assert.Error(t, Check(c.with(r.Min-step)), c.member)
		}
	}
}

func TestRangeOfWords(t *testing.T) {
	r, err := RangeOf(network.Pipe{}, "size")
	require.NoError(t, err)
	assert.Equal(t, unit.Sizes(), r.Sizes)
	r, err = RangeOf(network.Node{}, "access.kind")
	require.NoError(t, err)
	assert.Contains(t, r.Choices, string(network.Manhole))
	r, err = RangeOf(rig.Rig{}, "nozzles.purposes")
	require.NoError(t, err)
	assert.Len(t, r.Choices, len(rig.Purposes()))
	r, err = RangeOf(rig.Rig{}, "nozzles.orifices.count")
	require.NoError(t, err)
	assert.True(t, r.Whole)
	r, err = RangeOf(Job{}, "title")
	require.NoError(t, err)
	assert.Positive(t, r.Longest)
	for _, unknown := range []string{"", "sise", "access.kin", "access.size.x"} {
		_, err = RangeOf(network.Node{}, unknown)
		assert.Error(t, err, unknown)
	}
	_, err = RangeOf(3, "x")
	assert.Error(t, err)
}
