package audit

import (
	"fmt"
	"math"
	"time"

	"linemap/internal/route"
)

// rounded is a time after rounding to ticks: the shortest and the longest that
// honest rounding can give. The two differ only where the exact time stands on
// the edge between two ticks, or is itself a sum of such.
type rounded struct{ least, most time.Duration }

// edge is how near to the edge between two ticks either is right, in ticks.
const edge = 1e-6

// round rounds an exact time in seconds to a tick.
func round(seconds float64) rounded {
	t := seconds / route.Tick.Seconds()
	if !(math.Abs(t) < 1e12) { // no day is that long, and it must fit a Duration
		t = 1e12
	}
	return rounded{ticks(math.Round(t - edge)), ticks(math.Round(t + edge))}
}

// roundUp rounds an exact time in seconds up to a tick.
func roundUp(seconds float64) rounded {
	t := seconds / route.Tick.Seconds()
	if !(math.Abs(t) < 1e12) {
		t = 1e12
	}
	return rounded{ticks(math.Ceil(t - edge)), ticks(math.Ceil(t + edge))}
}

func ticks(n float64) time.Duration { return time.Duration(n) * route.Tick }

// exactly is a time that needs no rounding.
func exactly(d time.Duration) rounded { return rounded{d, d} }

func (r rounded) plus(s rounded) rounded { return rounded{r.least + s.least, r.most + s.most} }

func (r rounded) String() string {
	if r.least == r.most {
		return r.least.String()
	}
	return fmt.Sprintf("%v to %v", r.least, r.most)
}

// about is a time of several parts that were each rounded, nobody says how.
func about(seconds float64) rounded {
	r := round(seconds)
	return rounded{r.least - 2*route.Tick, r.most + 2*route.Tick}
}
