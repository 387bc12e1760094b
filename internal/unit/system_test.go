package unit

import (
	"math"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestFormatting(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, got, want string }{
		{"length", US.Length(Feet(61.4)), "61 ft"},
		{"length rounds", US.Length(Feet(61.5)), "62 ft"},
		{"length", Metric.Length(Metres(18.64)), "18.6 m"},
		{"footage", US.Footage(Feet(61) + Inches(4.2)), "61 ft 4 in"},
		{"footage carries the inch", US.Footage(Feet(61) + Inches(11.7)), "62 ft 0 in"},
		{"footage below zero", US.Footage(-Feet(1.5)), "-1 ft 6 in"},
		{"footage", Metric.Footage(Metres(18.686)), "18.69 m"},
		{"bore", US.Bore(Inches(0.5)), "0.50 in"},
		{"bore", US.Bore(Inches(0.375)), "0.375 in"},
		{"bore", Metric.Bore(Millimetres(12.7)), "12.7 mm"},
		{"bore", Metric.Bore(Millimetres(0.92)), "0.92 mm"},
		{"pressure", US.Pressure(Psi(2061.58)), "2060 psi"},
		{"pressure", Metric.Pressure(Psi(2061.58)), "142 bar"},
		{"flow", US.Flow(GallonsPerMinute(12)), "12.0 gpm"},
		{"flow", Metric.Flow(GallonsPerMinute(12)), "45 L/min"},
		{"force", US.Force(PoundsForce(27.96)), "28 lbf"},
		{"force", Metric.Force(PoundsForce(27.96)), "124 N"},
		{"volume", US.Volume(Gallons(330)), "330 gal"},
		{"volume", Metric.Volume(Gallons(330)), "1249 L"},
		{"area", US.Area(92.903), "1000 sq ft"}, // 1 ft² is 0.09290304 m²
		{"area", Metric.Area(111.6), "112 m²"},
		{"slope", US.Slope(InchesPerFoot(0.25)), "1/4 in/ft"},
		{"slope", US.Slope(InchesPerFoot(0.125)), "1/8 in/ft"},
		{"slope", US.Slope(InchesPerFoot(3. / 16)), "3/16 in/ft"},
		{"slope", US.Slope(InchesPerFoot(0.5)), "1/2 in/ft"},
		{"slope of no fraction", US.Slope(InchesPerFoot(0.21)), "0.21 in/ft"},
		{"slope of an inch", US.Slope(InchesPerFoot(1)), "1.00 in/ft"},
		{"slope backwards", US.Slope(InchesPerFoot(-0.25)), "-0.25 in/ft"},
		{"slope", Metric.Slope(InchesPerFoot(0.25)), "2.1 %"},
		{"minutes", Minutes(42 * time.Minute), "42 min"},
		{"minutes round", Minutes(41*time.Minute + 40*time.Second), "42 min"},
		{"an hour by rounding", Minutes(59*time.Minute + 45*time.Second), "1 h 00 min"},
		{"hours", Minutes(185 * time.Minute), "3 h 05 min"},
		{"no time", Minutes(0), "0 min"},
	} {
		assert.Equal(t, c.want, c.got, c.name)
	}
}

func TestNoNegativeZero(t *testing.T) {
	t.Parallel()
	const little = -1e-9
	for _, s := range []System{US, Metric} {
		for _, got := range []string{
			s.Length(little), s.Footage(little), s.Bore(little / 1e3), s.Pressure(little), s.Flow(little / 1e6),
			s.Force(little), s.Volume(little), s.Area(little), s.Slope(little), s.Length(Length(math.Copysign(0, -1))),
		} {
			assert.NotContains(t, got, "-")
		}
	}
}

func TestFootageIsWithinHalfAnInch(t *testing.T) {
	t.Parallel()
	form := regexp.MustCompile(`^-?\d+ ft (\d|1[01]) in$`)
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Float64Range(-1e5, 1e5).Draw(t, "m"))
		require.Regexp(t, form, US.Footage(l))
	})
	for _, l := range []Length{1e300, Length(math.Inf(1)), Length(math.NaN())} {
		assert.NotPanics(t, func() { US.Footage(l); US.Slope(Slope(l)) })
	}
}

func TestParseSystem(t *testing.T) {
	t.Parallel()
	for in, want := range map[string]System{"us": US, "US": US, "metric": Metric, "Metric": Metric} {
		got, err := ParseSystem(in)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
	for _, in := range []string{"", "si", "imperial"} {
		_, err := ParseSystem(in)
		assert.ErrorContains(t, err, `"`+in+`"`)
	}
}

func TestCount(t *testing.T) {
	t.Parallel()
	for n, want := range map[int]string{
		0: "0 pipes", 1: "1 pipe", 2: "2 pipes", 999: "999 pipes", 1000: "1,000 pipes", 1234567: "1,234,567 pipes",
	} {
		assert.Equal(t, want, Count(n, "pipe"))
	}
}
