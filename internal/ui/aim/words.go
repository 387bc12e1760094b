package aim

import (
	"math"
	"strconv"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// TurnWords says what a turn of the way is in the trade's words: "1/8 bend to
// the left", "straight on". Positive turns go to the left.
func TurnWords(turn unit.Angle) string {
	side := " to the left"
	if turn < 0 {
		turn, side = -turn, " to the right"
	}
	if turn < unit.Degrees(0.5) {
		return "straight on"
	}
	return network.BendName(turn) + side
}

// BearingWords writes a heading as surveyors do: "bearing 90°".
func BearingWords(h Heading) string {
	d := math.Mod(math.Round(h.Bearing()*10)/10, 360) // 359.96 is north
	return "bearing " + degrees(d)
}

// angleWords says what angle a ray has.
func (s *Sight) angleWords(ray Heading) string {
	if s.Way == nil {
		return BearingWords(ray)
	}
	return s.Way.Words(ray)
}

// Words says what angle a leg makes with the way: the bend between them, or the
// angle to the pipe that it leaves.
func (w *Way) Words(leg Heading) string {
	turn := w.Heading.Turn(leg)
	if w.Of == "" {
		return TurnWords(turn)
	}
	return degrees(acute(turn).Degrees()) + " to " + w.Of
}

// degrees writes an angle to the tenth of a degree, where that says something.
func degrees(d float64) string {
	return strconv.FormatFloat(math.Round(d*10)/10, 'f', -1, 64) + "°"
}
