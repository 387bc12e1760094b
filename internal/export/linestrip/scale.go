package linestrip

import "linemap/internal/unit"

// Scale puts readings on the height of a strip.
type Scale struct {
	// PerMetre is how many millimetres of paper a metre of pipe takes.
	PerMetre float64
	// Cut says that the hose on the ground is drawn shorter than it is, with a
	// break across it: else it would leave too little room for the pipe.
	Cut bool

	from, lay, end unit.Length
	layMM          float64
	lift           float64 // how far the rail goes on above and below, in millimetres
}

// mostLay is the part of a strip that hose on the ground may take.
const mostLay = 0.16

// Scale fits a line to a strip of a height.
func (l *Line) Scale(height float64) Scale {
	room := max(0, height-2*pad)
	s := Scale{from: l.From, lay: max(l.Lay, l.From), end: max(l.End, l.Lay, l.From)}
	if whole := s.end - s.from; whole > 0 {
		s.PerMetre = room / whole.Metres()
	}
	s.layMM = s.PerMetre * (s.lay - s.from).Metres()
	if most := mostLay * room; s.layMM > most && s.end > s.lay {
		s.Cut, s.layMM = true, most
		s.PerMetre = (room - most) / (s.end - s.lay).Metres()
	}
	return s
}

// Y is the height of a reading, in millimetres below the top of the strip. What
// lies outside the strip comes to its ends.
func (s Scale) Y(at unit.Length) float64 {
	switch at = min(max(at, s.from), s.end); {
	case at >= s.lay:
		return pad - s.lift + s.layMM + s.PerMetre*(at-s.lay).Metres()
	case s.Cut:
		return pad - s.lift + s.layMM*float64((at-s.from)/(s.lay-s.from))
	}
	return pad - s.lift + s.PerMetre*(at-s.from).Metres()
}

// Spread puts rows of the given heights one below the other within a total
// height, each with its middle line as near as it goes to the height wanted of
// it, in order and without overlap. It returns the tops of the rows; mid is how
// far below its top a row's middle line is. Rows that are too high together
// stand one below the other and run over.
func Spread(wanted, heights []float64, mid, total float64) []float64 {
	tops := make([]float64, len(heights))
	low := 0.0
	for i, h := range heights {
		tops[i] = max(low, wanted[i]-mid)
		low = tops[i] + h
	}
	high := max(total, sum(heights))
	for i := len(heights) - 1; i >= 0; i-- {
		tops[i] = min(tops[i], high-heights[i])
		high = tops[i]
	}
	return tops
}

func sum(vs []float64) (total float64) {
	for _, v := range vs {
		total += v
	}
	return total
}
