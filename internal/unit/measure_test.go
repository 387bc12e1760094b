package unit

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The conversions are exact by definition: the foot is 0.3048 m, the inch
// 25.4 mm, the US gallon 231 cubic inches (NIST SP 811, appendix B).
func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		text       string
		us, metric float64 // metres; NaN for refused
	}{
		{"12", 12 * 0.3048, 12},
		{"12.5", 12.5 * 0.3048, 12.5},
		{`12' 6"`, 12.5 * 0.3048, 12.5 * 0.3048},
		{`12'6"`, 12.5 * 0.3048, 12.5 * 0.3048},
		{`12' 6`, 12.5 * 0.3048, 12.5 * 0.3048},
		{`12'-6 1/2"`, 150.5 * 0.0254, 150.5 * 0.0254},
		{"12 ft 6 1/2 in", 150.5 * 0.0254, 150.5 * 0.0254},
		{"12\u2032 6½\u2033", 150.5 * 0.0254, 150.5 * 0.0254},
		{"12 ft .5 in", 144.5 * 0.0254, 144.5 * 0.0254},
		{"12.5 ft", 12.5 * 0.3048, 12.5 * 0.3048},
		{"3/8 in", 0.375 * 0.0254, 0.375 * 0.0254},
		{"6-1/2 in", 6.5 * 0.0254, 6.5 * 0.0254},
		{"3.2 m", 3.2, 3.2},
		{"3.2m", 3.2, 3.2},
		{"320 CM", 3.2, 3.2},
		{"-3.2 m", -3.2, -3.2},
		{"+3 m", 3, 3},
		{"2 yd", 6 * 0.3048, 6 * 0.3048},
		{"3,2 m", math.NaN(), 3.2},
		{"1,200 ft", 1200 * 0.3048, math.NaN()},
		{"1,200.5 ft", 1200.5 * 0.3048, math.NaN()},
		{"12,00 ft", math.NaN(), 12 * 0.3048},
		{"", math.NaN(), math.NaN()},
		{"ft", math.NaN(), math.NaN()},
		{"-", math.NaN(), math.NaN()},
		{"1/0 ft", math.NaN(), math.NaN()},
		{"12 psi", math.NaN(), math.NaN()},
		{"12 m 6 m", math.NaN(), math.NaN()},
		{"12 ft 6 ft", math.NaN(), math.NaN()},
		{"6 in 12 ft", math.NaN(), math.NaN()},
		{"12 6", math.NaN(), math.NaN()},
		{"1.2.3", math.NaN(), math.NaN()},
		{"1e400", math.NaN(), math.NaN()},
		{"NaN", math.NaN(), math.NaN()},
		{"Inf m", math.NaN(), math.NaN()},
		{"0x10", math.NaN(), math.NaN()},
		{strings.Repeat("9", 400), math.NaN(), math.NaN()},
	} {
		for sys, want := range map[System]float64{US: c.us, Metric: c.metric} {
			got, err := Lengths.Parse(c.text, sys)
			if math.IsNaN(want) {
				assert.Error(t, err, "%q in %s gave %v", c.text, sys, got)
				continue
			}
			if assert.NoError(t, err, "%q in %s", c.text, sys) {
				assert.InDelta(t, want, float64(got), 1e-12, "%q in %s", c.text, sys)
			}
		}
	}
}

func TestParseOthers(t *testing.T) {
	near := func(want float64, got float64, err error) {
		t.Helper()
		require.NoError(t, err)
		assert.InDelta(t, want, got, 1e-9*math.Max(1, math.Abs(want)))
	}
	fall, err := Slopes.Parse(`1/4" per ft`, US)
	near(0.25/12, float64(fall), err)
	fall, err = Slopes.Parse("1/4", US)
	near(0.25/12, float64(fall), err)
	fall, err = Slopes.Parse("2", Metric)
	near(0.02, float64(fall), err)
	fall, err = Slopes.Parse("1:50", US)
	near(0.02, float64(fall), err)
	fall, err = Slopes.Parse("-1 %", US)
	near(-0.01, float64(fall), err)
	turn, err := Angles.Parse("1/8 bend", US)
	near(45, turn.Degrees(), err)
	turn, err = Angles.Parse("22.5°", Metric)
	near(22.5, turn.Degrees(), err)
	p, err := Pressures.Parse("4,000 psi", US)
	near(4000, p.Psi(), err)
	p, err = Pressures.Parse("280", Metric)
	near(280, p.Bar(), err)
	q, err := Flows.Parse("45 l/min", US)
	near(45, q.LitresPerMinute(), err)
	v, err := Volumes.Parse("1.25 m3", US)
	near(1250, v.Litres(), err)
	sp, err := Speeds.Parse("5 mph", Metric)
	near(5*5280*0.3048/60, sp.MetresPerMinute(), err)
	w, err := LinearMasses.Parse("0.17", US)
	near(0.17, w.PoundsPerFoot(), err)
	kg, err := Masses.Parse("8 oz", US)
	near(0.45359237/2, float64(kg), err)
	c, err := Temperatures.Parse("50", US)
	near(10, float64(c), err)
	c, err = Temperatures.Parse("10 °C", US)
	near(10, float64(c), err)
	m, err := Times.Parse("1 h 30", US)
	near(90, m, err)
	m, err = Times.Parse("1 h 30 min", US)
	near(90, m, err)
	share, err := Shares.Parse("10 %", US)
	near(0.1, share, err)
	n, err := Numbers.Parse("2 1/2", US)
	near(2.5, n, err)
	for _, bad := range []string{"1:0", "0:0", "1:50:2", "x"} {
		_, err := Slopes.Parse(bad, US)
		assert.Error(t, err, bad)
	}
	_, err = Numbers.Parse("4 ft", US)
	assert.EqualError(t, err, `"4 ft" is no number: write it like 4 or 2.5`)
}

func TestWriteForEntries(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Lengths.Write(Feet(12.5), US), "12 ft 6 in"},
		{Lengths.Write(Inches(150.5), US), "12 ft 6 1/2 in"},
		{Lengths.Write(Inches(-6), US), "-6 in"},
		{Lengths.Write(Inches(0.5), US), "1/2 in"},
		{Lengths.Write(0, US), "0 ft"},
		{Lengths.Write(Feet(400), US), "400 ft"},
		{Lengths.Write(3.2, Metric), "3.2 m"},
		{Lengths.Write(1234.5678, Metric), "1235 m"},
		{Bores.Write(Inches(0.375), US), "0.375 in"},
		{Bores.Write(Millimetres(0.0015), Metric), "0.0015 mm"},
		{Angles.Write(Degrees(22.5), US), "22.5°"},
		{Slopes.Write(InchesPerFoot(0.25), US), "1/4 in/ft"},
		{Slopes.Write(InchesPerFoot(0.21), US), "0.21 in/ft"},
		{Slopes.Write(InchesPerFoot(1), US), "1 in/ft"},
		{Slopes.Write(0.02, Metric), "2 %"},
		{Coordinates.Write(Degrees(-87.6297985), US), "-87.629799°"},
		{Coordinates.Write(Degrees(41.5), Metric), "41.5°"},
		{Coordinates.Write(Degrees(-100), US), "-100°"},
		{Pressures.Write(Psi(3800), US), "3800 psi"},
		{Flows.Write(GallonsPerMinute(12), US), "12 gpm"},
		{Volumes.Write(Gallons(330), US), "330 gal"},
		{Speeds.Write(FeetPerMinute(60), US), "60 ft/min"},
		{LinearMasses.Write(0.253, Metric), "0.253 kg/m"},
		{Masses.Write(Pounds(0.5), US), "0.5 lb"},
		{Temperatures.Write(10, US), "50 °F"},
		{Temperatures.Write(10, Metric), "10 °C"},
		{Times.Write(20, US), "20 min"},
		{Times.Write(90, US), "1 h 30 min"},
		{Times.Write(60, US), "1 h"},
		{Times.Write(2.5, US), "2.5 min"},
		{Shares.Write(0.1, US), "10 %"},
		{Numbers.Write(4, US), "4"},
	} {
		assert.Equal(t, c.want, c.got)
	}
}

// TestWrittenIsRead: what an entry shows reads back as the same to within what
// it shows, in both systems, and shows the same again.
func TestWrittenIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom([]System{US, Metric}).Draw(t, "system")
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "value")
		again(t, &Lengths, v, s)
		again(t, &Bores, v, s)
		again(t, &Angles, v, s)
		again(t, &Slopes, v, s)
		again(t, &Pressures, v, s)
		again(t, &Flows, v, s)
		again(t, &Volumes, v, s)
		again(t, &Speeds, v, s)
		again(t, &Masses, v, s)
		again(t, &LinearMasses, v, s)
		again(t, &Temperatures, v, s)
		again(t, &Times, v, s)
		again(t, &Shares, v, s)
		again(t, &Numbers, v, s)
	})
}

func again[Q ~float64](t *rapid.T, m *Measure[Q], v float64, s System) {
	text := m.Write(Q(v), s)
	back, err := m.Parse(text, s)
	require.NoError(t, err, "%s: %q", m.name, text)
	assert.Equal(t, text, m.Write(back, s), "%s: %v", m.name, v)
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{`12' 6"`, "3/8", "1:50", "1 h 30", "-.5 in", "1,200", "½", "12 ft - 6", "/", "1/", "m³", "'", `1/4" per ft`} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, s := range []System{US, Metric} {
			for _, read := range []func(string, System) (float64, bool){Lengths.read, Slopes.read, Times.read, Temperatures.read, Numbers.read} {
				if v, ok := read(text, s); ok && !finite(v) {
					t.Fatalf("%q reads as %v", text, v)
				}
			}
			if _, err := Lengths.Parse(text, s); err != nil && len(err.Error()) > 2000 {
				t.Fatalf("a message of %d bytes", len(err.Error()))
			}
		}
	})
}
