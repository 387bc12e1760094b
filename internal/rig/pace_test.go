package rig

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"linemap/internal/unit"
)

func TestStrokes(t *testing.T) {
	t.Parallel()
	// Common practice: pull back half of what was advanced, so each stroke of
	// 10 ft nets 5 ft.
	c := &Crew{Stroke: unit.Feet(10), Forward: unit.FeetPerMinute(40), Back: unit.FeetPerMinute(30)}
	for _, s := range []struct {
		ft      float64
		strokes int
		minutes float64
	}{
		{0, 0, 0},
		{-3, 0, 0},
		{5, 1, 10./40 + 5./30},
		{30, 6, 6 * (10./40 + 5./30)},
		{31, 7, 31 * (2./40 + 1./30)},
		{200, 40, 40 * (10./40 + 5./30)},
	} {
		assert.Equal(t, s.strokes, c.Strokes(unit.Feet(s.ft)), "%v ft", s.ft)
		assert.InDelta(t, s.minutes, c.StrokeOut(unit.Feet(s.ft)).Minutes(), 1e-9, "%v ft", s.ft)
	}
	for n := 1; n <= 1000; n++ {
		assert.Equal(t, 2*n, c.Strokes(unit.Feet(float64(10*n))))
	}
	assert.Equal(t, 1, c.Strokes(1e-12), "no length is worked without a stroke")
	assert.Zero(t, (&Crew{}).Strokes(10))
	assert.Equal(t, Longest, (&Crew{}).StrokeOut(10))
	assert.Equal(t, math.MaxInt32, c.Strokes(unit.Length(math.Inf(1))))
}

func TestOver(t *testing.T) {
	t.Parallel()
	assert.Equal(t, 2*time.Minute, Over(unit.Feet(40), unit.FeetPerMinute(20)))
	assert.Equal(t, 90*time.Second, Over(3, 2./60))
	assert.Zero(t, Over(0, 0))
	assert.Zero(t, Over(unit.Length(math.NaN()), 1))
	assert.Equal(t, Longest, Over(1, 0))
	assert.Equal(t, Longest, Over(1, -1))
	assert.Equal(t, Longest, Over(unit.Length(math.Inf(1)), 1))
	assert.Equal(t, Longest, Over(1e300, 1e-300))
}
