package replay

import (
	"math"
	"sort"
	"time"

	"linemap/internal/unit"
)

// Motion is what the nozzle does.
type Motion string

// The motions; the empty one stands still.
const (
	Stroking  Motion = "stroking"  // out, a stroke forward and half of it back
	GoingOut  Motion = "going_out" // out over pipe that is not worked in strokes
	Pulling   Motion = "pulling"   // back, at the pace of the deposit
	Returning Motion = "returning" // out again for the next pull
	ComingIn  Motion = "coming_in" // back over pipe that is not worked
)

// phase is a stretch of a pass with one motion at an even pace.
type phase struct {
	motion   Motion
	from, to unit.Length // readings
	begins   float64     // seconds after the pass began
	takes    float64
	// Of strokes: their number, and the share of the time spent forward.
	strokes int
	forward float64
	// Of pulls: which one of how many.
	pull, pulls int
}

// phaseAt finds the phase in force so long after the pass began, and the share of
// it that is over.
func phaseAt(phases []phase, since time.Duration) (p *phase, share float64, ok bool) {
	t := since.Seconds()
	i := sort.Search(len(phases), func(i int) bool { return phases[i].begins > t }) - 1
	if i < 0 {
		return nil, 0, false
	}
	p = &phases[i]
	if p.takes <= 0 {
		return p, 1, true
	}
	return p, max(0, min((t-p.begins)/p.takes, 1)), true
}

// reading is the hose counter's after a share of the phase; back tells whether
// the nozzle is on its way back.
func (p *phase) reading(share float64) (at unit.Length, back bool) {
	if p.motion == Stroking {
		done, back := p.stroke(share)
		return p.from + unit.Length(done)*(p.to-p.from), back
	}
	if share >= 1 {
		return p.to, p.to < p.from
	}
	return p.from + unit.Length(share)*(p.to-p.from), p.to < p.from
}

// stroke is how far strokes got after a share of their time, as a share of the
// way. A stroke nets half of its length; the last one would pass the end, so its
// second half is gone twice instead: to the end, back, and to the end again. All
// in all the way is gone twice forward and once back.
func (p *phase) stroke(share float64) (done float64, back bool) {
	n := float64(p.strokes)
	out := p.forward / (2 * n) // the time to go forward over what a stroke nets
	ret := (1 - p.forward) / n // and to come back over it
	k := max(0, min(math.Floor(share/(2*out+ret)), n-1))
	t := share - k*(2*out+ret)
	if k < n-1 {
		if t < 2*out {
			return (k + part(t, out)) / n, false
		}
		return (k + 2 - part(t-2*out, ret)) / n, true
	}
	switch {
	case t < out:
		return (k + part(t, out)) / n, false
	case t < out+ret:
		return (k + 1 - part(t-out, ret)) / n, true
	}
	return min(1, (k+part(t-out-ret, out))/n), false
}

// part is t as a part of a time, all of it where that is none.
func part(t, of float64) float64 {
	if of <= 0 {
		return 1
	}
	return t / of
}
