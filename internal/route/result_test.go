package route_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// TestResult has a hose with 20 ft of lay and riser, through 30 ft to be cleaned,
// 10 ft to be passed and 40 ft to be cleaned.
func TestResult(t *testing.T) {
	const millimetre = 0.0033 // in feet
	ft := unit.Feet
	b := &route.Block{Spot: "yard", Hose: "half", Runs: []route.Run{{
		Number: 3, Access: "co", Direction: route.Downstream, Entry: ft(20), End: ft(100),
		Path: []route.Leg{
			{Pipe: "a", From: ft(20), To: ft(50), Cleaned: true},
			{Pipe: "b", From: ft(50), To: ft(60)},
			{Pipe: "c", From: ft(60), To: ft(100), Cleaned: true},
		},
	}}}
	key := site.RunKey{Spot: "yard", Hose: "half", Access: "co", End: "c", Downstream: true}
	for _, c := range []struct {
		name          string
		reached, a, c float64
	}{
		{"not made", 0, 0, 0},
		{"still on the ground", 12, 0, 0},
		{"in the first pipe", 32.5, 12.5, 0},
		{"in the pipe between", 55, 30, 0},
		{"in the last pipe", 61, 30, 1},
		{"an inch before the end", 99.95, 30, 40},
		{"two inches before the end", 99.8333, 30, 39.8333},
		{"to the end", 100, 30, 40},
		{"farther than planned", 130, 30, 40},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := b.Runs[0].Result(b, ft(c.reached))
			assert.Equal(t, key, got.Run)
			assert.Equal(t, 3, got.Number)
			assert.InDelta(t, 100, got.Planned.Feet(), millimetre)
			assert.Len(t, got.Pipes, 2, "pipe that is only passed is not to be cleaned")
			assert.InDelta(t, c.a, got.Pipes[0].Cleaned.Feet(), millimetre)
			assert.InDelta(t, c.c, got.Pipes[1].Cleaned.Feet(), millimetre)
			assert.InDelta(t, 40, got.Pipes[1].Length.Feet(), millimetre)
		})
	}
	p := &route.Plan{Blocks: []route.Block{*b}}
	run, block := p.Find(key)
	assert.Same(t, &p.Blocks[0].Runs[0], run)
	assert.Same(t, &p.Blocks[0], block)
	key.Hose = "other"
	run, _ = p.Find(key)
	assert.Nil(t, run)
}
