package rig

import (
	"math"
	"time"

	"linemap/internal/unit"
)

// Longest is the longest time that a function of this package answers. It
// stands for never, as at a speed of 0, and is short enough to be added up.
const Longest = 1000 * time.Hour

// Over returns the time to cover a length at a speed: nothing for no length,
// [Longest] at a standstill.
func Over(l unit.Length, v unit.Speed) time.Duration {
	switch {
	case !(l > 0):
		return 0
	case !(v > 0):
		return Longest
	}
	return span(float64(l) / float64(v) * float64(time.Second))
}

// Day returns on which working day something begins that begins after so much
// work, counted from 0, and how much of that day has then been worked.
func (c *Crew) Day(worked time.Duration) (day int, into time.Duration) {
	shift := time.Duration(c.Shift * float64(time.Minute))
	if shift <= 0 {
		return 0, worked
	}
	return int(worked / shift), worked % shift
}

// StrokeOut returns the time to work forward over a length in strokes. A
// stroke goes its length at Forward and half of it back at Back, so a length
// costs two of it forward and one back.
func (c *Crew) StrokeOut(l unit.Length) time.Duration {
	return min(Longest, Over(2*l, c.Forward)+Over(l, c.Back))
}

// Strokes returns how many strokes it takes to work forward over a length at
// half a stroke of progress each: at least one for any length.
func (c *Crew) Strokes(l unit.Length) int {
	if !(l > 0 && c.Stroke > 0) {
		return 0
	}
	const slack = 1e-9 // 30 ft by strokes of 10 ft are six, whatever the last digit says
	return int(max(1, min(math.Ceil(float64(2*l/c.Stroke)-slack), math.MaxInt32)))
}

// span returns a time of ns nanoseconds, at most Longest.
func span(ns float64) time.Duration {
	if !(ns < float64(Longest)) {
		return Longest
	}
	return time.Duration(math.Round(ns))
}
