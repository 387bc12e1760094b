package unit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestConversionFactors(t *testing.T) {
	t.Parallel()
	// NIST SP 811 (2008), appendix B.8. Factors in bold there are exact; the
	// others are rounded to seven digits.
	const exact, rounded = 1e-15, 5e-7
	for _, c := range []struct {
		name      string
		got, want float64
		tolerance float64
	}{
		{"foot to m", Feet(1).Metres(), 0.3048, exact},
		{"inch to m", Inches(1).Metres(), 0.0254, exact},
		{"psi to Pa", float64(Psi(1)), 6.894757e3, rounded},
		{"bar to Pa", float64(Bar(1)), 1e5, exact},
		{"US gallon to m3", float64(Gallons(1)), 3.785412e-3, rounded},
		{"gallon per minute to m3/s", float64(GallonsPerMinute(1)), 6.309020e-5, rounded},
		{"litre to m3", float64(Litres(1)), 1e-3, exact},
		{"pound-force to N", PoundsForce(1).Newtons(), 4.448222, rounded},
		{"pound to kg", float64(Pounds(1)), 0.4535924, rounded},
		{"pound per foot to kg/m", float64(PoundsPerFoot(1)), 1.488164, rounded},
		{"pound-force per foot to N/m", 1 / LinearForce(1).PoundsForcePerFoot(), 14.59390, rounded},
		{"foot per minute to m/s", float64(FeetPerMinute(1)), 5.08e-3, exact},
		{"foot per second to m/s", float64(FeetPerSecond(1)), 0.3048, exact},
		{"degree to rad", Degrees(1).Radians(), 1.745329e-2, rounded},
		{"standard gravity in m/s2", Gravity, 9.80665, exact},
	} {
		assert.InEpsilon(t, c.want, c.got, c.tolerance, c.name)
	}
	// By definition: the gallon is 231 cubic inches, the pound 0.45359237 kg, the
	// pound-force a pound under standard gravity, the psi one of it on a square
	// inch.
	assert.InEpsilon(t, 231*math.Pow(0.0254, 3), float64(Gallons(1)), exact)
	assert.InEpsilon(t, 0.45359237*Gravity, PoundsForce(1).Newtons(), exact)
	assert.InEpsilon(t, 0.45359237*Gravity/(0.0254*0.0254), float64(Psi(1)), exact)
	assert.InEpsilon(t, 0.45359237, float64(Pounds(1)), exact)
}

func TestDerivedFigures(t *testing.T) {
	t.Parallel()
	// Computed; each ties several units together.
	water := 998.2 * Gravity // N/m3
	assert.InEpsilon(t, 0.432747, Pressure(water*Feet(1).Metres()).Psi(), 1e-6, "head of a foot of water, psi")
	pipe := Volume(math.Pi / 4 * math.Pow(Inches(4).Metres(), 2) * Feet(100).Metres())
	assert.InEpsilon(t, 65.279843, pipe.Gallons(), 1e-7, "100 ft of full 4 in pipe, gal")
	power := float64(GallonsPerMinute(12)) * float64(Psi(3000))
	assert.InEpsilon(t, 15659.70, power, 1e-6, "12 gpm at 3000 psi, W")
	assert.InEpsilon(t, 21.0035, power/(550*0.3048*4.4482216152605), 4e-4, "the same by Q p / 1714, hp")
	// Trade fractions of a turn: 1/16, 1/8, 1/6, 1/5 and 1/4 bends (fraction of
	// 360 degrees; 1/5 = 72 degrees also in UPC 707.4).
	for degrees, fraction := range map[float64]float64{22.5: 16, 45: 8, 60: 6, 72: 5, 90: 4} {
		assert.InEpsilon(t, degrees, (QuarterBends(4) / Angle(fraction)).Degrees(), 1e-12)
	}
	assert.InEpsilon(t, 1, (Degrees(45) + Degrees(45)).QuarterBends(), 1e-15, "two eighths are a quarter")
	assert.InEpsilon(t, 100./48, InchesPerFoot(0.25).Percent(), 1e-15)
	assert.InEpsilon(t, 30, FeetPerSecond(0.5/0.3048).MetresPerMinute(), 1e-12)
}

func TestRoundTrips(t *testing.T) {
	t.Parallel()
	for name, there := range map[string]func(v float64) float64{
		"m":       func(v float64) float64 { return Metres(v).Metres() },
		"mm":      func(v float64) float64 { return Millimetres(v).Millimetres() },
		"ft":      func(v float64) float64 { return Feet(v).Feet() },
		"in":      func(v float64) float64 { return Inches(v).Inches() },
		"degrees": func(v float64) float64 { return Degrees(v).Degrees() },
		"bends":   func(v float64) float64 { return QuarterBends(v).QuarterBends() },
		"in/ft":   func(v float64) float64 { return InchesPerFoot(v).InchesPerFoot() },
		"psi":     func(v float64) float64 { return Psi(v).Psi() },
		"bar":     func(v float64) float64 { return Bar(v).Bar() },
		"gpm":     func(v float64) float64 { return GallonsPerMinute(v).GallonsPerMinute() },
		"L/min":   func(v float64) float64 { return LitresPerMinute(v).LitresPerMinute() },
		"gal":     func(v float64) float64 { return Gallons(v).Gallons() },
		"L":       func(v float64) float64 { return Litres(v).Litres() },
		"m/min":   func(v float64) float64 { return MetresPerMinute(v).MetresPerMinute() },
		"ft/s":    func(v float64) float64 { return FeetPerSecond(v).FeetPerSecond() },
		"lbf":     func(v float64) float64 { return PoundsForce(v).PoundsForce() },
		"lb/ft":   func(v float64) float64 { return PoundsPerFoot(v).PoundsPerFoot() },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			rapid.Check(t, func(t *rapid.T) {
				v := rapid.Float64Range(-1e9, 1e9).Draw(t, "v")
				require.InDelta(t, v, there(v), math.Abs(v)*1e-15+1e-300)
			})
		})
	}
}

func TestSizes(t *testing.T) {
	t.Parallel()
	// ISO 6708 and ASME B36.10M; 15 and 21 in by ASTM C76M.
	want := map[Size]int{
		1.25: 32, 1.5: 40, 2: 50, 2.5: 65, 3: 80, 4: 100, 5: 125, 6: 150,
		8: 200, 10: 250, 12: 300, 15: 375, 18: 450, 21: 525, 24: 600,
	}
	last := Size(0)
	for _, s := range Sizes() {
		assert.Greater(t, s, last, "ascending")
		last = s
		assert.True(t, s.Known())
		assert.Equal(t, want[s], s.DN(), "%v", s)
		// The nominal size is the bore to within a tenth inch or so.
		assert.InDelta(t, float64(s.DN()), s.Nominal().Millimetres(), 12, "%v", s)
	}
	assert.Len(t, Sizes(), len(want))
	assert.False(t, Size(7).Known())
	assert.Zero(t, Size(7).DN())
	for size, said := range map[Size]string{
		4: "4 in", 1.25: "1 1/4 in", 1.5: "1 1/2 in", 0.75: "3/4 in", 2.625: "2 5/8 in", 10: "10 in", 0: "0 in", 1.3: "1.3 in",
	} {
		assert.Equal(t, said, size.In(US))
		back, err := Bores.Parse(said, US)
		assert.NoError(t, err)
		assert.InDelta(t, float64(size), back.Inches(), 1e-9, "read back")
	}
	for _, text := range []string{"1.25 in", "1 1/4 in", "1-1/4", "1.25", `1 1/4"`} {
		l, err := Bores.Parse(text, US)
		assert.NoError(t, err, text)
		assert.InDelta(t, 1.25, l.Inches(), 1e-12, text)
	}
	assert.Equal(t, "DN 40", Size(1.5).In(Metric))
	assert.Equal(t, "7 in", Size(7).In(Metric), "a size without a DN number keeps its own")
}
