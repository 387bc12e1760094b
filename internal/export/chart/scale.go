package chart

import (
	"math"
	"strconv"

	"linemap/internal/unit"
)

// millimetres of paper per metre of ground at 1:1.
const fullSize = 1000.0

// coarsest bounds the denominators on offer: whatever [finite] lets pass fits.
const coarsest = 4e8

// scales lists the denominators on offer, largest scale first: those on the
// triangular scale rules in common use and their tens. Metric rules carry 1:50,
// 75, 100, 125, 200, 250, 300, 400 and 500. In US units the engineer's rule
// carries 1 in to 10, 20, 30, 40, 50 and 60 ft; of the architect's, 1/4, 1/8
// and 1/16 in to 1 ft are taken.
func scales(sys unit.System) []float64 {
	all := []float64{50, 75, 100, 125}
	steps := []float64{200, 250, 300, 400, 500, 750, 1000, 1250}
	if sys != unit.Metric {
		all = []float64{48, 60, 96, 120, 192}
		steps = []float64{240, 360, 480, 600, 720, 1200}
	}
	for k := 1.0; k*steps[0] < coarsest; k *= 10 {
		for _, s := range steps {
			all = append(all, k*s)
		}
	}
	return all
}

// scaleText writes a scale: "1 in = 20 ft (1:240)", "1/8 in = 1 ft (1:96)",
// "1:200".
func scaleText(sys unit.System, den float64) string {
	ratio := "1:" + strconv.FormatFloat(den, 'f', -1, 64)
	if sys == unit.Metric {
		return ratio
	}
	if den == 48 || den == 96 || den == 192 {
		return "1/" + strconv.FormatFloat(den/12, 'f', -1, 64) + " in = 1 ft (" + ratio + ")"
	}
	return "1 in = " + strconv.FormatFloat(den/12, 'f', -1, 64) + " ft (" + ratio + ")"
}

// bar picks the length of half a scale bar, a round number of feet or metres
// whose double is at most room millimetres long, and returns it with its unit.
func bar(sys unit.System, den, room float64) (half unit.Length, number float64, name string) {
	one, name := unit.Feet(1), "ft"
	if sys == unit.Metric {
		one, name = unit.Metres(1), "m"
	}
	number = 1
	for n := 1.0; n < coarsest; n *= 10 {
		for _, step := range []float64{1, 2, 5} {
			if 2*n*step*one.Metres()*fullSize/den <= room {
				number = n * step
			}
		}
	}
	return unit.Length(number) * one, number, name
}

// finite reports whether a place can be put on paper.
func finite(x, y unit.Length) bool {
	const far = 1e7 // a quarter of the way around the Earth
	return math.Abs(x.Metres()) <= far && math.Abs(y.Metres()) <= far
}
