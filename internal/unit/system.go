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
		return strconv.FormatFloat(nonNegZero(l.Metres(), 1), 'f', 1, 64) + " m"
	}
	return strconv.FormatFloat(nonNegZero(l.Feet(), 0), 'f', 0, 64) + " ft"
}

// Footage writes a hose-counter reading, to the inch or the centimetre:
// 61 ft 4 in, 18.69 m.
func (s System) Footage(l Length) string {
	if s == Metric {
		return strconv.FormatFloat(nonNegZero(l.Metres(), 2), 'f', 2, 64) + " m"
	}
	in := int(math.Round(l.Inches()))
	sign := ""
	if in < 0 {
		sign, in = "-", -in
	}
	return fmt.Sprintf("%s%d ft %d in", sign, in/inchesPerFoot, in%inchesPerFoot)
}

// Bore writes a small length: "0.50 in", "12.7 mm".
func (s System) Bore(l Length) string {
	if s == Metric {
		return strconv.FormatFloat(l.Millimetres(), 'f', 1, 64) + " mm"
	}
	return strconv.FormatFloat(l.Inches(), 'f', 2, 64) + " in"
}

// Pressure writes a pressure to the ten psi or the bar: "2060 psi", "142 bar".
func (s System) Pressure(p Pressure) string {
	if s == Metric {
		return strconv.FormatFloat(p.Bar(), 'f', 0, 64) + " bar"
	}
	return strconv.FormatFloat(10*math.Round(p.Psi()/10), 'f', 0, 64) + " psi"
}

// Flow writes a flow: "12.0 gpm", "45 L/min".
func (s System) Flow(q Flow) string {
	if s == Metric {
		return strconv.FormatFloat(q.LitresPerMinute(), 'f', 0, 64) + " L/min"
	}
	return strconv.FormatFloat(q.GallonsPerMinute(), 'f', 1, 64) + " gpm"
}

// Force writes a force: "28 lbf", "125 N".
func (s System) Force(f Force) string {
	if s == Metric {
		return strconv.FormatFloat(nonNegZero(f.Newtons(), 0), 'f', 0, 64) + " N"
	}
	return strconv.FormatFloat(nonNegZero(f.PoundsForce(), 0), 'f', 0, 64) + " lbf"
}

// Volume writes a volume: "330 gal", "1250 L".
func (s System) Volume(v Volume) string {
	if s == Metric {
		return strconv.FormatFloat(nonNegZero(v.Litres(), 0), 'f', 0, 64) + " L"
	}
	return strconv.FormatFloat(nonNegZero(v.Gallons(), 0), 'f', 0, 64) + " gal"
}

// Slope writes a fall: "1/4 in/ft" where it is a whole number of sixteenths,
// else "0.21 in/ft"; "2.1 %".
func (s System) Slope(f Slope) string {
	if s == Metric {
		return strconv.FormatFloat(f.Percent(), 'f', 1, 64) + " %"
	}
	in := f.InchesPerFoot()
	sixteenths := int(math.Round(in * 16))
	if math.Abs(in*16-float64(sixteenths)) > 0.02 || sixteenths <= 0 || sixteenths >= 16 {
		return strconv.FormatFloat(in, 'f', 2, 64) + " in/ft"
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

// ParseSystem reads "us" or "metric".
func ParseSystem(s string) (System, error) {
	switch sys := System(strings.ToLower(s)); sys {
	case US, Metric:
		return sys, nil
	}
	return "", fmt.Errorf("units %q: choose us or metric", s)
}

// nonNegZero rounds v to places decimals and turns -0 into 0, so that no
// paper reads "-0 ft".
func nonNegZero(v float64, places int) float64 {
	k := math.Pow10(places)
	if r := math.Round(v*k) / k; r != 0 {
		return r
	}
	return 0
}
