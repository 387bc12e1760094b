package unit

// Area is an area in square metres.
type Area float64

// SquareFeet returns a in square feet.
func (a Area) SquareFeet() float64 { return float64(a) / (metresPerFoot * metresPerFoot) }

// SquareMetres returns a in square metres.
func (a Area) SquareMetres() float64 { return float64(a) }

// Area writes a piece of ground as a person reads it: "1200 sq ft", "111 m²".
func (s System) Area(a Area) string {
	if s == Metric {
		return fixed(a.SquareMetres(), 0) + " m²"
	}
	return fixed(a.SquareFeet(), 0) + " sq ft"
}
