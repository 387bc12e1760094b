package rig

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/unit"
)

func TestTank(t *testing.T) {
	t.Parallel()
	tank := &Tank{Volume: unit.Gallons(300), Start: unit.Gallons(150), Stop: unit.Gallons(30)}
	draw, fill := unit.GallonsPerMinute(12), unit.GallonsPerMinute(8)

	for _, c := range []struct {
		name         string
		draw, inflow unit.Flow
		minutes      float64
		need         float64 // gallons
		ok           bool
	}{
		{"a short run asks for the start level", draw, 0, 5, 150, true},
		{"a long run asks for its water and the stop level", draw, 0, 20, 30 + 12*20, true},
		{"refilling stretches it", draw, fill, 45, 30 + 4*45, true},
		{"a run that the tank does not hold", draw, 0, 23, 30 + 12*23, false},
		{"more in than out", fill, draw, 1000, 150, true},
		{"no run", draw, 0, 0, 150, true},
	} {
		need, ok := tank.Need(c.draw, c.inflow, minutes(c.minutes))
		assert.InDelta(t, c.need, need.Gallons(), 1e-9, c.name)
		assert.Equal(t, c.ok, ok, c.name)
	}

	full := tank.Volume
	assert.InDelta(t, 180, tank.After(full, draw, 0, minutes(10)).Gallons(), 1e-9)
	assert.InDelta(t, 260, tank.After(full, draw, fill, minutes(10)).Gallons(), 1e-9)
	assert.Equal(t, full, tank.After(full, 0, fill, minutes(10)), "up to the brim")
	assert.Zero(t, tank.After(full, draw, 0, minutes(26)), "down to the bottom")
}

func minutes(m float64) time.Duration { return time.Duration(m * float64(time.Minute)) }

func TestTankProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		v := f("volume", 100, 5000)
		tank := &Tank{Volume: unit.Litres(v), Start: unit.Litres(f("start", 0, v)), Stop: unit.Litres(f("stop", 0, v))}
		draw, inflow := unit.LitresPerMinute(f("draw", 0, 200)), unit.LitresPerMinute(f("inflow", 0, 100))
		level := unit.Litres(f("level", 0, v))
		d := minutes(f("minutes", 0, 600))
		const drop = 1e-12 // m3

		after := tank.After(level, draw, inflow, d)
		require.GreaterOrEqual(t, float64(after), 0.0)
		require.LessOrEqual(t, after, tank.Volume)
		// Two halves make the whole, unless the tank ran over or dry between.
		if after > 0 && after < tank.Volume {
			half := tank.After(tank.After(level, draw, inflow, d/2), draw, inflow, d-d/2)
			require.InDelta(t, float64(after), float64(half), drop)
		}

		need, ok := tank.Need(draw, inflow, d)
		require.GreaterOrEqual(t, need, tank.Start)
		require.Equal(t, need <= tank.Volume, ok)
		if !ok {
			return
		}
		// A run that starts at need ends at Stop or above, and one that starts
		// lower does not, unless it is the start level that asks.
		end := tank.After(need, draw, inflow, d)
		require.GreaterOrEqual(t, float64(end), float64(tank.Stop)-drop)
		if need > max(tank.Start, tank.Stop) {
			require.InDelta(t, float64(tank.Stop), float64(end), drop)
		}
	})
}
