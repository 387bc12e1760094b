package rig

import (
	"errors"
	"fmt"
	"math"

	"linemap/internal/unit"
)

// What keeps [Rig.Operate] from an answer.
var (
	ErrPump   = errors.New("the pump gives no flow or no pressure")
	ErrHose   = errors.New("the hose has no bore, length or working pressure")
	ErrNozzle = errors.New("the nozzle has no orifice to pass water")
)

// Operate solves the state in which pump, plumbing, hose and nozzle agree, and
// returns it with the unloader setting to use.
//
// The pump gives its rated flow until the pressure this takes at the pump
// exceeds the setting; then the unloader sheds water and the flow is what the
// setting can drive. The setting is the least of the rig's unloader, the
// hose's working pressure and, where ceiling is above 0, the pump pressure at
// which the nozzle stands at ceiling. Height between pump and nozzle is left
// out: 10 m are 1 bar.
//
// The error wraps [ErrPump], [ErrHose] or [ErrNozzle] and names the hose or
// the nozzle.
func (r *Rig) Operate(h *Hose, n *Nozzle, ceiling unit.Pressure) (Operating, unit.Pressure, error) {
	if err := r.canOperate(h, n); err != nil {
		return Operating{}, 0, err
	}
	l := line{&r.Plumbing, h, n, WaterAt(r.Water)}
	setting := min(r.Pump.Unloader, h.Working)
	if ceiling > 0 {
		setting = min(setting, l.pump(n.Flow(ceiling, l.water)))
	}
	flow := r.Pump.Flow
	if l.pump(flow) > setting {
		flow = unit.Flow(bisect(0, float64(flow), func(q float64) bool {
			return l.pump(unit.Flow(q)) <= setting
		}))
	}
	nozzle, loss := n.Pressure(flow, l.water), l.loss(flow)
	return Operating{
		Flow:   flow,
		Pump:   nozzle + loss,
		Nozzle: nozzle,
		Loss:   loss,
		Thrust: n.Thrust(nozzle),
	}, setting, nil
}

// line is the way of the water from the pump to the jets.
type line struct {
	plumbing *Plumbing
	hose     *Hose
	nozzle   *Nozzle
	water    Water
}

// loss returns the pressure lost before the nozzle.
func (l line) loss(q unit.Flow) unit.Pressure {
	return HoseLoss(q, l.plumbing.Bore, l.plumbing.Length, DefaultRoughness, l.water) +
		l.hose.loss(q, l.water)
}

// pump returns the pressure that a flow takes at the pump. It grows with q.
func (l line) pump(q unit.Flow) unit.Pressure {
	return l.loss(q) + l.nozzle.Pressure(q, l.water)
}

func (r *Rig) canOperate(h *Hose, n *Nozzle) error {
	switch {
	case !positive(r.Pump.Flow) || !positive(r.Pump.Unloader):
		return fmt.Errorf("%w: %v at unloader %v", ErrPump,
			unit.Metric.Flow(r.Pump.Flow), unit.Metric.Pressure(r.Pump.Unloader))
	case !positive(h.Bore) || !positive(h.Length) || !positive(h.Working):
		return fmt.Errorf("%w: %q", ErrHose, h.Name)
	case !positive(n.effectiveArea()):
		return fmt.Errorf("%w: %q", ErrNozzle, n.Name)
	}
	return nil
}

// positive reports whether v is a number above 0 and below infinity.
func positive[T ~float64](v T) bool { return v > 0 && !math.IsInf(float64(v), 1) }

// bisect returns the largest x in [lo, hi] at which holds is still true, to
// the last digit; holds must be true at lo and must not become true again once
// it is false.
func bisect(lo, hi float64, holds func(x float64) bool) float64 {
	for {
		mid := lo + (hi-lo)/2
		if !(lo < mid && mid < hi) {
			return lo
		}
		if holds(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
}
