package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
)

// System is the choice of units that a person reads: "us" or "metric".
type System string

// The systems of units.
const (
	US     System = "us"
	Metric System = "metric"
)

// Length writes a length as a person reads it: "61 ft", "18.6 m".
func (s System) Length(l Length) string {
	if s == Metric {
		return fixed(l.Metres(), 1) + " m"
	}
	return fixed(l.Feet(), 0) + " ft"
}

// Footage writes a hose-counter reading, to the inch or the centimetre:
// 61 ft 4 in, 18.69 m.
func (s System) Footage(l Length) string {
	if s == Metric {
		return fixed(l.Metres(), 2) + " m"
	}
	in := math.Round(math.Abs(l.Inches()))
	sign := ""
	if l < 0 && in > 0 {
		sign = "-"
	}
	return fmt.Sprintf("%s%.0f ft %.0f in", sign, math.Floor(in/inchesPerFoot), math.Mod(in, inchesPerFoot))
}

// Bore writes a small length, with a last digit only where it says something:
// "0.50 in", "0.375 in"; "12.7 mm", "0.92 mm".
func (s System) Bore(l Length) string {
	if s == Metric {
		return strings.TrimSuffix(fixed(l.Millimetres(), 2), "0") + " mm"
	}
	return strings.TrimSuffix(fixed(l.Inches(), 3), "0") + " in"
}

// Pressure writes a pressure to the ten psi or the bar: "2060 psi", "142 bar".
func (s System) Pressure(p Pressure) string {
	if s == Metric {
		return fixed(p.Bar(), 0) + " bar"
	}
	return fixed(p.Psi(), -1) + " psi"
}

// Flow writes a flow: "12.0 gpm", "45 L/min".
func (s System) Flow(q Flow) string {
	if s == Metric {
		return fixed(q.LitresPerMinute(), 0) + " L/min"
	}
	return fixed(q.GallonsPerMinute(), 1) + " gpm"
}

// Force writes a force: "28 lbf", "125 N".
func (s System) Force(f Force) string {
	if s == Metric {
		return fixed(f.Newtons(), 0) + " N"
	}
	return fixed(f.PoundsForce(), 0) + " lbf"
}

// Volume writes a volume: "330 gal", "1250 L".
func (s System) Volume(v Volume) string {
	if s == Metric {
		return fixed(v.Litres(), 0) + " L"
	}
	return fixed(v.Gallons(), 0) + " gal"
}

// Slope writes a fall: "1/4 in/ft" where it is a whole number of sixteenths,
// else "0.21 in/ft"; "2.1 %".
func (s System) Slope(f Slope) string {
	if s == Metric {
		return fixed(f.Percent(), 1) + " %"
	}
	in := f.InchesPerFoot()
	sixteenths := int(math.Round(in * 16))
	if math.Abs(in*16-float64(sixteenths)) > 0.02 || sixteenths <= 0 || sixteenths >= 16 {
		return fixed(in, 2) + " in/ft"
	}
	den := 16
	for sixteenths%2 == 0 {
		sixteenths, den = sixteenths/2, den/2
	}
	return fmt.Sprintf("%d/%d in/ft", sixteenths, den)
}

// Minutes writes a time to the minute below an hour and as hours and minutes
// above: "42 min", "3 h 05 min".
func Minutes(d time.Duration) string {
	m := int(math.Round(d.Minutes()))
	if m < 60 {
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %02d min", m/60, m%60)
}

// Count writes how many things there are, 0 or more: "1 pipe", "1,200
// pipes".
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	digits := strconv.Itoa(n)
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits + " " + thing + "s"
}

// ParseSystem reads "us" or "metric".
func ParseSystem(s string) (System, error) {
	switch sys := System(strings.ToLower(s)); sys {
	case US, Metric:
		return sys, nil
	}
	return "", fmt.Errorf("units %q: choose us or metric", s)
}

// fixed writes v to places decimals; -1 rounds to the ten. What rounds to zero
// has no sign, so that no paper reads "-0 ft".
func fixed(v float64, places int) string {
	k := math.Pow10(places)
	r := math.Round(v*k) / k
	if r == 0 {
		r = 0 // -0 too
	}
	return strconv.FormatFloat(r, 'f', max(0, places), 64)
}
