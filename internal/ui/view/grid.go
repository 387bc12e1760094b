package view

import (
	"math"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// Grid is a grid on the ground: lines every Step, of which every Strong-th is
// drawn stronger.
type Grid struct {
	Step   unit.Length
	Strong int
}

// tight is how close the lines of a grid may come, in pixels.
const tight = 14

// Grid returns the grid that suits the scale: steps that people count in.
func (v View) Grid(sys unit.System) Grid {
	least := unit.Metres(tight / v.Scale)
	if sys == unit.Metric {
		step, first := round(least, unit.Metres(1), []float64{1, 2, 5})
		return Grid{step, map[float64]int{1: 5, 2: 5, 5: 4}[first]}
	}
	for _, in := range []struct {
		inches float64
		strong int
	}{{1, 6}, {3, 4}, {6, 4}} {
		if step := unit.Inches(in.inches); step >= least {
			return Grid{step, in.strong}
		}
	}
	step, first := round(max(least, unit.Feet(1)), unit.Feet(1), []float64{1, 2, 5})
	return Grid{step, map[float64]int{1: 5, 2: 5, 5: 4}[first]}
}

// ScaleBar returns the length of a scale bar of at most so many pixels: a round
// one.
func (v View) ScaleBar(most float64, sys unit.System) unit.Length {
	one := unit.Feet(1)
	if sys == unit.Metric {
		one = unit.Metres(1)
	}
	longest := most / v.Scale / one.Metres()
	power := math.Pow10(int(math.Floor(math.Log10(longest))))
	for _, k := range []float64{5, 2, 1} {
		if k*power <= longest {
			return one * unit.Length(k*power)
		}
	}
	return one * unit.Length(power)
}

// round returns the least of the numbers times a power of ten, in some unit,
// that is not under least, and which of the numbers it is.
func round(least, one unit.Length, numbers []float64) (unit.Length, float64) {
	for power := math.Pow10(int(math.Floor(math.Log10(float64(least / one))))); ; power *= 10 {
		for _, k := range numbers {
			if step := one * unit.Length(k*power); step >= least*(1-1e-9) {
				return step, k
			}
		}
	}
}

// Lines returns the places where the lines of a grid cross the screen: x in
// pixels of the upright ones and y of the level ones, with whether each is
// strong.
func (v View) Lines(g Grid) (x, y []GridLine) {
	low, high := v.Ground(Dot{0, v.H}), v.Ground(Dot{v.W, 0})
	each := func(from, to unit.Length, at func(unit.Length) float64) (all []GridLine) {
		for i := math.Ceil(float64(from / g.Step)); i <= math.Floor(float64(to/g.Step)); i++ {
			all = append(all, GridLine{at(unit.Length(i) * g.Step), math.Mod(i, float64(g.Strong)) == 0})
		}
		return all
	}
	x = each(low.X, high.X, func(l unit.Length) float64 { return v.Dot(network.Point{X: l}).X })
	y = each(low.Y, high.Y, func(l unit.Length) float64 { return v.Dot(network.Point{Y: l}).Y })
	return x, y
}

// GridLine is a line of a grid across the screen.
type GridLine struct {
	At     float64
	Strong bool
}
