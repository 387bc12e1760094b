package site

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/unit"
)

// The factors between US units and metric ones are exact by definition: the
// foot 0.3048 m, the gallon 231 cubic inches, the pound 0.45359237 kg; the psi
// follows from them and standard gravity (NIST SP 811, appendix B).
func TestUnitsOfTheFile(t *testing.T) {
	for _, c := range []struct {
		name string
		v    any
		want string
	}{
		{"metres", unit.Metres(18.6), "18.6"},
		{"feet", unit.Feet(400), "121.92"},
		{"inches", unit.Inches(0.5), "0.0127"},
		{"millimetres", unit.Millimetres(0.9), "0.0009"},
		{"roughness", unit.Millimetres(0.0015), "0.0000015"},
		{"degrees", unit.Degrees(22.5), "22.5"},
		{"quarter bend", unit.QuarterBends(1), "90"},
		{"bar", unit.Bar(150), "15000"},
		{"one pascal", unit.Pressure(1), "0.001"},
		{"litres per minute", unit.LitresPerMinute(45.5), "45.5"},
		{"litres", unit.Litres(1250), "1250"},
		{"kilograms", unit.Mass(0.4), "0.4"},
		{"kilograms per metre", unit.LinearMass(0.25), "0.25"},
		{"metres per minute", unit.Speed(0.1), "6"},
		{"newtons", unit.Force(125.7282), "125.7282"},
		{"celsius", unit.Temperature(10), "10"},
		{"slope", unit.Slope(0.0208), "0.0208"},
		{"size", unit.Size(1.5), "1.5"},
		{"a minute and a half", 90 * time.Second, "1.5"},
		{"one tick of 1/100 min", 600 * time.Millisecond, "0.01"},
		{"a day", 24 * time.Hour, "1440"},
		{"minus nothing", unit.Length(math.Copysign(0, -1)), "0"},
		{"list", []unit.Pressure{unit.Bar(1), unit.Bar(2)}, "[100, 200]"},
		{"pointer", new(unit.Length), "0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := EncodeValue(c.v)
			require.NoError(t, err)
			assert.Equal(t, c.want+"\n", string(got))
		})
	}
	for name, c := range map[string]struct {
		v          any
		want, last float64 // figure and the place of its last digit
	}{
		"4000 psi": {unit.Psi(4000), 27579.029172673444, 1e-10},
		"12 gpm":   {unit.GallonsPerMinute(12), 45.424941408, 1e-12},
		"330 gal":  {unit.Gallons(330), 1249.18588872, 1e-10},
		"60 fpm":   {unit.FeetPerMinute(60), 18.288, 1e-13},
	} {
		got, err := EncodeValue(c.v)
		require.NoError(t, err)
		f, err := strconv.ParseFloat(strings.TrimSpace(string(got)), 64)
		require.NoError(t, err)
		assert.InDelta(t, c.want, f, c.last, name)
	}
}

// TestDecimalsStayAsWritten reads a decimal as each quantity and writes it
// again: the text is the same, so saving what was loaded changes nothing.
func TestDecimalsStayAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		digits := rapid.Int64Range(-999_999_999_999, 999_999_999_999).Draw(t, "digits")
		places := rapid.IntRange(0, 9).Draw(t, "places")
		f, err := strconv.ParseFloat(fmt.Sprintf("%de-%d", digits, places), 64)
		require.NoError(t, err)
		text := string(mustEncode(t, f))
		stays[unit.Length](t, text)
		stays[unit.Angle](t, text)
		stays[unit.Pressure](t, text)
		stays[unit.Flow](t, text)
		stays[unit.Volume](t, text)
		stays[unit.Speed](t, text)
		stays[unit.Mass](t, text)
		stays[unit.LinearMass](t, text)
		stays[unit.Force](t, text)
		stays[unit.Temperature](t, text)
		stays[unit.Slope](t, text)
	})
}

func stays[T any](t *rapid.T, text string) {
	var v T
	require.NoError(t, json.Unmarshal([]byte(text), &v, decoding))
	require.Equal(t, text, string(mustEncode(t, v)), "%T", v)
}

func mustEncode(t require.TestingT, v any) []byte {
	data, err := EncodeValue(v)
	require.NoError(t, err)
	return data
}

// TestAnyFloatSettles writes floats that no file gave. Once read back they are
// off by two last bits at most, and from then on nothing moves.
func TestAnyFloatSettles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-1e12, 1e12).Filter(func(f float64) bool {
			return f == 0 || math.Abs(f) > 1e-200 // a figure must not run out of bits
		}).Draw(t, "f")
		settles(t, unit.Length(f))
		settles(t, unit.Angle(f))
		settles(t, unit.Pressure(f))
		settles(t, unit.Flow(f))
		settles(t, unit.Volume(f))
		settles(t, unit.Speed(f))
	})
	settles(t, unit.Flow(9.16259689813359e+09)) // reading and writing each round twice
}

func settles[T ~float64](t require.TestingT, v T) {
	text := mustEncode(t, v)
	var once T
	require.NoError(t, json.Unmarshal(text, &once, decoding))
	ulp := math.Nextafter(math.Abs(float64(v)), math.Inf(1)) - math.Abs(float64(v))
	require.InDelta(t, float64(v), float64(once), 2*ulp, "%T", v)
	require.Equal(t, string(text), string(mustEncode(t, once)), "%T", v)
}

func TestDurationsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := time.Duration(rapid.Int64Range(0, int64(31*24*time.Hour)).Draw(t, "ns"))
		var back time.Duration
		require.NoError(t, json.Unmarshal(mustEncode(t, d), &back, decoding))
		require.Equal(t, d, back)
	})
}

// TestTicksAreExact reads hundredths of a minute, the planner's unit of time.
func TestTicksAreExact(t *testing.T) {
	for n := range 150_000 {
		require.Equal(t, time.Duration(n)*600*time.Millisecond, minutes(float64(n)/100), n)
	}
}

func TestMinusNothingIsRead(t *testing.T) {
	var l unit.Length
	require.NoError(t, json.Unmarshal([]byte("-0.0"), &l, decoding))
	assert.False(t, math.Signbit(float64(l)))
}

func TestNumbersThatNoFileHolds(t *testing.T) {
	for _, v := range []any{
		unit.Length(math.NaN()), unit.Pressure(math.Inf(1)), math.NaN(), []float64{math.Inf(-1)}, unit.Angle(math.Inf(-1)),
	} {
		_, err := EncodeValue(v)
		assert.ErrorContains(t, err, "is no number that a file can hold")
	}
	s := wholeSite(t)
	s.Network.Nodes[0].At.X = unit.Length(math.NaN())
	_, err := Encode(s)
	assert.ErrorContains(t, err, "NaN is no number that a file can hold")
	assert.ErrorContains(t, err, "/network/nodes/0/at/x")
}

func TestQuantitiesAreNumbers(t *testing.T) {
	for text, want := range map[string]string{
		`"3"`:   "found 3, must be a number",
		`true`:  "found true, must be a number",
		`1e999`: "value out of range",
		`[3]`:   "found [, must be a number",
		``:      "EOF",
	} {
		var l unit.Length
		assert.ErrorContains(t, json.Unmarshal([]byte(text), &l, decoding), want, text)
	}
}

// quantities is one figure in every unit.
type quantities struct {
	Length   unit.Length
	Angle    unit.Angle
	Pressure unit.Pressure
	Flow     unit.Flow
	Volume   unit.Volume
	Speed    unit.Speed
	Plain    float64
}

// readQuantities reads one figure in every unit.
func readQuantities(figure string) (quantities, error) {
	var q quantities
	var all []string
	for _, name := range []string{"Length", "Angle", "Pressure", "Flow", "Volume", "Speed", "Plain"} {
		all = append(all, strconv.Quote(name)+": "+figure)
	}
	err := json.Unmarshal([]byte("{"+strings.Join(all, ", ")+"}"), &q, decoding)
	return q, err
}
