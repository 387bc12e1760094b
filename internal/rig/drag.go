package rig

import (
	"math"

	"linemap/internal/unit"
)

// Weight returns the weight of the hose per length with the water in it. A low
// reach takes the heavy hose.
func (h *Hose) Weight(w Water, c Case) unit.LinearForce {
	empty := float64(h.Mass)
	switch c {
	case LowReach:
		empty *= 1 + h.MassSpread
	case HighReach:
		empty *= 1 - h.MassSpread
	}
	return unit.LinearForce((empty + float64(w.Density)*area(h.Bore)) * unit.Gravity)
}

// Of returns the figure of a friction, or of anything else that shortens the
// reach as it grows, for a case: the high one for the low reach.
func (r Range) Of(c Case) float64 {
	switch c {
	case LowReach:
		return r.High
	case HighReach:
		return r.Low
	}
	return r.Likely
}

// Push returns the drag of the hose at the far end of a step, given its drag
// at the near end. The turn comes first and multiplies what is behind it by
// exp(friction x angle), the capstan equation; the straight then adds weight x
// length x (friction x cos + sin). Hose that would slide on by itself, down a
// steep pipe, drags nothing.
func Push(behind unit.Force, s Step, h *Hose, w Water, c Case) unit.Force {
	mu := s.Friction.Of(c)
	t := float64(behind) * math.Exp(mu*float64(s.Turn))
	return unit.Force(max(0, t+perLength(s, h, w, c, +1)*float64(s.Length)))
}

// perLength returns the drag that a metre of straight adds, in N/m. Away from
// the access away is +1 and the climb counts against the pull, back it is -1.
func perLength(s Step, h *Hose, w Water, c Case, away float64) float64 {
	sin, cos := math.Sincos(float64(s.Climb))
	return float64(h.Weight(w, c)) * (s.Friction.Of(c)*cos + away*sin)
}

// Drag returns what the nozzle must pull to stand at the end of the steps, the
// first of which begins at the access. Their order matters: a bend multiplies
// the drag of all hose behind it.
func Drag(steps []Step, h *Hose, w Water, c Case) unit.Force {
	var t unit.Force
	for _, s := range steps {
		t = Push(t, s, h, w, c)
	}
	return t
}

// ReachAlong returns how far along the steps a nozzle of the given thrust gets
// before drag is as large as thrust: their whole length where it never is. A
// nozzle that stalls in a turn gets as far as the turn; one without forward
// thrust gets nowhere.
func ReachAlong(steps []Step, h *Hose, w Water, thrust unit.Force, c Case) unit.Length {
	var reach unit.Length
	if !(thrust > 0) {
		return reach
	}
	var t unit.Force
	for _, s := range steps {
		turned := Push(t, Step{Turn: s.Turn, Friction: s.Friction}, h, w, c)
		if turned >= thrust {
			return reach
		}
		t = Push(t, s, h, w, c)
		if t >= thrust {
			return reach + unit.Length(float64(thrust-turned)/perLength(s, h, w, c, +1))
		}
		reach += s.Length
	}
	return reach
}

// PeakPull returns the largest tension in the hose while it is pulled back
// from the end of the steps with the jets on: the thrust holds it at the
// nozzle, and drag adds up from there to the access, the other way round than
// in [Drag]. Every place of the nozzle on its way back counts.
func PeakPull(steps []Step, h *Hose, w Water, thrust unit.Force, c Case) unit.Force {
	start := max(0, thrust)
	t, peak := start, start
	for i := len(steps) - 1; i >= 0; i-- {
		s := steps[i]
		t += unit.Force(perLength(s, h, w, c, -1) * float64(s.Length))
		// Where the hose slides back by itself the nozzle, once it gets here,
		// gives the larger tension.
		t = max(t, start)
		peak = max(peak, t)
		t *= unit.Force(math.Exp(s.Friction.Of(c) * float64(s.Turn)))
		peak = max(peak, t)
	}
	return peak
}
