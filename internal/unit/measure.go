package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Measure is a kind of quantity as people type it and read it back: the units
// they may write, whichever system they work in, and the one of each system
// that goes without saying.
type Measure[Q ~float64] struct {
	name    string // "length"
	example string
	units   []scale
	// us and metric are the units that go without saying, and that it is
	// written in.
	us, metric string
	// write is set where a number and a unit will not do.
	write func(q Q, s System) (string, bool)
	// ratio is set where a whole may be said as "1:50".
	ratio bool
}

// scale is a unit: a quantity of n of it is n*one + zero.
type scale struct {
	words     string // as they are typed, with | between them; the first is written
	one, zero float64
	// then is the unit of a bare number that follows: inches after feet.
	then string
}

// The measures. Speeds and pressures are read in the units of pumps and hoses.
var (
	Lengths = Measure[Length]{
		name: "length", example: `12' 6", 12.5 ft or 3.2 m`, units: lengths, us: "ft", metric: "m", write: writeLength,
	}
	// Bores are lengths in inches or millimetres.
	Bores  = Measure[Length]{name: "length", example: "1/2 in or 12.7 mm", units: lengths, us: "in", metric: "mm"}
	Angles = Measure[Angle]{name: "angle", example: "45 or 1/8 bend", us: "°", metric: "°", units: []scale{
		{words: "°|deg|degs|degree|degrees", one: math.Pi / degreesPerHalfTurn},
		{words: "bend|bends", one: 2 * math.Pi},
	}}
	// Coordinates are latitudes and longitudes, written to a tenth of a metre.
	Coordinates = Measure[Angle]{
		name: "latitude or longitude", example: "41.878113 or -87.629799", us: "°", metric: "°", write: writeCoordinate,
		units: []scale{{words: "°|deg|degs|degree|degrees", one: math.Pi / degreesPerHalfTurn}},
	}
	Slopes = Measure[Slope]{
		name: "fall", example: "1/4 in/ft, 2 % or 1:50", us: "in/ft", metric: "%", write: writeSlope, ratio: true,
		units: []scale{
			{words: `in/ft|in per ft|in a foot|in per foot|"/ft|" per ft|"/'|in`, one: 1.0 / inchesPerFoot},
			{words: "%|percent|cm/m", one: 0.01},
			{words: "mm/m", one: 1.0 / millimetresPerMtr},
			{words: "m/m", one: 1},
		},
	}
	Pressures = Measure[Pressure]{name: "pressure", example: "4000 psi or 280 bar", us: "psi", metric: "bar", units: []scale{
		{words: "psi|lb/in²|pounds", one: pascalsPerPsi},
		{words: "bar", one: pascalsPerBar},
		{words: "kpa", one: 1e3},
		{words: "mpa", one: 1e6},
	}}
	Flows = Measure[Flow]{name: "flow", example: "12 gpm or 45 L/min", us: "gpm", metric: "L/min", units: []scale{
		{words: "gpm|gal/min|gallons per minute", one: cubicMetresPerGal / secondsPerMinute},
		{words: "L/min|lpm|l per min|litres per minute|liters per minute", one: 1.0 / litresPerCubicMtr / secondsPerMinute},
		{words: "L/s", one: 1.0 / litresPerCubicMtr},
		{words: "m³/h", one: 1.0 / 3600},
	}}
	Volumes = Measure[Volume]{name: "volume", example: "330 gal or 1250 L", us: "gal", metric: "L", units: []scale{
		{words: "gal|gallon|gallons", one: cubicMetresPerGal},
		{words: "L|litre|litres|liter|liters", one: 1.0 / litresPerCubicMtr},
		{words: "m³", one: 1},
	}}
	Speeds = Measure[Speed]{name: "speed", example: "60 ft/min or 18 m/min", us: "ft/min", metric: "m/min", units: []scale{
		{words: "ft/min|fpm|ft per min|ft per minute|feet per minute", one: metresPerFoot / secondsPerMinute},
		{words: "m/min|m per min|m per minute", one: 1.0 / secondsPerMinute},
		{words: "ft/s", one: metresPerFoot},
		{words: "m/s", one: 1},
		{words: "mph", one: 5280 * metresPerFoot / 3600},
		{words: "km/h", one: 1 / 3.6},
	}}
	Masses = Measure[Mass]{name: "mass", example: "2 lb or 0.9 kg", us: "lb", metric: "kg", units: []scale{
		{words: "lb|lbs|pound|pounds", one: kilogramsPerPound},
		{words: "oz|ounce|ounces", one: kilogramsPerPound / 16},
		{words: "kg", one: 1},
		{words: "g", one: 1e-3},
	}}
	LinearMasses = Measure[LinearMass]{name: "mass per length", example: "0.17 lb/ft or 0.25 kg/m", us: "lb/ft", metric: "kg/m", units: []scale{
		{words: "lb/ft|lb per ft|lbs/ft", one: kilogramsPerPound / metresPerFoot},
		{words: "kg/m|kg per m", one: 1},
		{words: "g/m", one: 1e-3},
	}}
	Temperatures = Measure[Temperature]{name: "temperature", example: "50 °F or 10 °C", us: "°F", metric: "°C", units: []scale{
		{words: "°F|f|degf|deg f", one: 1 / 1.8, zero: -32 / 1.8},
		{words: "°C|c|degc|deg c", one: 1},
	}}
	// Times are in minutes.
	Times = Measure[float64]{name: "time", example: "20 min or 1 h 30 min", us: "min", metric: "min", write: writeTime, units: []scale{
		{words: "min|mins|minute|minutes", one: 1},
		{words: "h|hr|hrs|hour|hours", one: 60, then: "min"},
		{words: "s|sec|second|seconds", one: 1.0 / 60},
	}}
	// Shares are parts of one, said in percent.
	Shares = Measure[float64]{name: "share", example: "10 %", us: "%", metric: "%", units: []scale{{words: "%|percent", one: 0.01}}}
	// Numbers have no unit.
	Numbers = Measure[float64]{name: "number", example: "4 or 2.5", units: []scale{{one: 1}}}
)

var lengths = []scale{
	{words: "ft|'|foot|feet", one: metresPerFoot, then: "in"},
	{words: `in|"|''|inch|inches`, one: metresPerInch},
	{words: "yd|yard|yards", one: 3 * metresPerFoot},
	{words: "m|metre|metres|meter|meters", one: 1},
	{words: "cm", one: 0.01},
	{words: "mm", one: 1.0 / millimetresPerMtr},
}

// writeCoordinate writes six decimals of a degree, without those that say
// nothing.
func writeCoordinate(a Angle, _ System) (string, bool) {
	text := strings.TrimRight(fixed(a.Degrees(), 6), "0")
	return strings.TrimSuffix(text, ".") + "°", true
}

// Write writes a quantity for an entry: as exactly as anyone would type it, and
// so that [Measure.Parse] reads it back.
func (m *Measure[Q]) Write(q Q, s System) string {
	if m.write != nil {
		if text, ok := m.write(q, s); ok {
			return text
		}
	}
	u, _ := m.unit(m.bare(s))
	text := figure((float64(q) - u.zero) / u.one)
	switch word := m.bare(s); word {
	case "":
		return text
	case "°":
		return text + word
	default:
		return text + " " + word
	}
}

// bare names the unit that goes without saying, "" where there is none.
func (m *Measure[Q]) bare(s System) string {
	if s == Metric {
		return m.metric
	}
	return m.us
}

// unit finds a unit by a word for it.
func (m *Measure[Q]) unit(word string) (scale, bool) {
	for _, u := range m.units {
		for w := range strings.SplitSeq(u.words, "|") {
			if strings.EqualFold(w, word) {
				return u, true
			}
		}
	}
	return scale{}, false
}

// figure writes a number without digits that say nothing: four figures, and all
// of them before the point.
func figure(v float64) string {
	const figures = 4
	places := figures
	if v != 0 {
		places = max(0, figures-1-int(math.Floor(math.Log10(math.Abs(v)))))
	}
	text := fixed(v, min(places, 9))
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// writeLength writes feet and inches to the eighth: "12 ft 6 1/2 in".
func writeLength(l Length, s System) (string, bool) {
	if s == Metric {
		return "", false
	}
	const most = 1e9 // eighths that a whole number holds
	eighths := math.Round(math.Abs(l.Inches()) * 8)
	if !(eighths < most) {
		return "", false
	}
	n := int(eighths)
	sign := ""
	if l < 0 && n > 0 {
		sign = "-"
	}
	ft, in, part := n/(8*inchesPerFoot), n/8%inchesPerFoot, n%8
	var words []string
	if ft > 0 || n == 0 {
		words = append(words, fmt.Sprintf("%d ft", ft))
	}
	if part > 0 || in > 0 {
		words = append(words, inches(float64(8*in+part)/8)+" in")
	}
	return sign + strings.Join(words, " "), true
}

func writeSlope(f Slope, s System) (string, bool) {
	text := s.Slope(f)
	return text, s != Metric && strings.Count(text, "/") == 2 // a fraction and in/ft
}

// writeTime writes an hour and more as hours and minutes, to the hundredth.
func writeTime(m float64, _ System) (string, bool) {
	const part, hour, most = 100, 60, 1e6
	if !(m >= hour && m < most) {
		return "", false
	}
	parts := int(math.Round(m * part))
	text := fmt.Sprintf("%d h", parts/(part*hour))
	if rest := parts % (part * hour); rest > 0 {
		text += " " + figure(float64(rest)/part) + " min"
	}
	return text, true
}

// inches writes a number of inches as a rule has them: whole ones and eighths, "1
// 1/4"; any other in decimals.
func inches(v float64) string {
	whole, part := math.Modf(v)
	eighths := int(part * 8)
	if float64(eighths) != part*8 || eighths <= 0 {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	if whole == 0 {
		return fraction(eighths, 8)
	}
	return fmt.Sprintf("%.0f %s", whole, fraction(eighths, 8))
}

// fraction writes n parts of den, which is a power of two, in lowest terms.
func fraction(n, den int) string {
	for n%2 == 0 {
		n, den = n/2, den/2
	}
	return fmt.Sprintf("%d/%d", n, den)
}
