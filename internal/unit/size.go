package unit

import "fmt"

// Size is a nominal pipe size, the NPS number in inches: 1.5, 2, 4. It names a
// pipe; it is no bore. True bores depend on the material.
type Size float64

// dn pairs each nominal pipe size with its DN number, as ISO 6708 and ASME
// B36.10M pair them. The sewer sizes 15 and 21, which those leave out, are the
// 375 mm and 525 mm of ASTM C76M.
var dn = map[Size]int{
	1.25: 32, 1.5: 40, 2: 50, 2.5: 65, 3: 80, 4: 100, 5: 125, 6: 150,
	8: 200, 10: 250, 12: 300, 15: 375, 18: 450, 21: 525, 24: 600,
}

// Sizes lists the nominal sizes that linemap knows, ascending.
func Sizes() []Size {
	return []Size{1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 18, 21, 24}
}

// Known reports whether s is one of [Sizes].
func (s Size) Known() bool { _, ok := dn[s]; return ok }

// DN returns the metric designation of s, 100 for NPS 4, and 0 for a size
// that is not known.
func (s Size) DN() int { return dn[s] }

// Nominal returns the nominal size as a length.
func (s Size) Nominal() Length { return Inches(float64(s)) }

// In writes s the way the system writes it: "4 in", "1 1/4 in" or "DN 100".
func (s Size) In(sys System) string {
	if sys == Metric && s.Known() {
		return fmt.Sprintf("DN %d", s.DN())
	}
	return inches(float64(s)) + " in"
}
