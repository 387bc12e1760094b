package quote

import (
	"fmt"
	"math/big"
	"strings"
	"testing"
	"time"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/site"
	"linemap/internal/unit"
)

func d(s string) decimal.Decimal { return decimal.MustParse(s) }

func bakery() site.Prices {
	return site.Prices{
		Currency: "USD", Units: unit.US, CallOut: d("85.00"), CrewHour: d("165.00"),
		Rates:    []site.Rate{{UpTo: 2, Amount: d("0.95")}, {UpTo: 4, Amount: d("1.40")}, {UpTo: 8, Amount: d("2.1")}},
		RootsRun: d("60"), RootsLength: d("0.255"), NightPercent: d("50"), NightFrom: "19:00", NightTo: "06:00",
		Water: d("11.00"), Disposal: d("75"), Minimum: d("390"), TaxPercent: d("6.25"),
	}
}

func day() Work {
	return Work{
		Hours: 4*time.Hour + 7*time.Minute + 19*time.Second, Night: 90 * time.Minute,
		Pipe: []Stretch{
			{1.5, unit.Feet(10.3)}, {3, unit.Feet(121.44)}, {4, unit.Feet(88.06)}, {6, unit.Feet(40)}, {10, unit.Feet(12.5)},
		},
		RootRuns: 2, Roots: unit.Feet(61), Water: unit.Gallons(411.6),
	}
}

// Worked by hand, with pencil: quantity as written, times rate, half up to the
// cent. 10.3 x 0.95 = 9.785 and 61 x 0.255 = 15.555 are the ties.
func TestABillByHand(t *testing.T) {
	w, p := day(), bakery()
	b, err := Price(&w, &p)
	require.NoError(t, err)
	want := []string{
		"call_out     1    x 85.00   = 85.00",
		"crew_hours   4.12 x 165.00  = 679.80",
		"night_hours  1.50 x 82.5000 = 123.75",
		"pipe 1.5     10.3 x 0.95    = 9.79",
		"pipe 3       121.4 x 1.40   = 169.96",
		"pipe 4       88.1 x 1.40    = 123.34",
		"pipe 6       40.0 x 2.1     = 84.00",
		"root_runs    2    x 60      = 120.00",
		"root_pipe    61.0 x 0.255   = 15.56",
		"water        0.412 x 11.00  = 4.53",
		"disposal     1    x 75      = 75.00",
	}
	var got []string
	for _, l := range b.Lines {
		name := string(l.Kind)
		if l.Size > 0 {
			name += fmt.Sprintf(" %g", float64(l.Size))
		}
		got = append(got, fmt.Sprintf("%s %s x %s = %s", name, l.Quantity, l.Rate, l.Amount))
	}
	for i := range want {
		want[i] = strings.Join(strings.Fields(want[i]), " ")
	}
	assert.Equal(t, want, got)
	// 85 + 679.80 + 123.75 + 9.79 + 169.96 + 123.34 + 84 + 120 + 15.56 + 4.53 + 75
	assert.Equal(t, "1490.73", b.Net.String())
	assert.Equal(t, "93.17", b.Tax.String()) // 93.170625
	assert.Equal(t, "1583.90", b.Total.String())
	assert.Equal(t, []Stretch{{10, unit.Feet(12.5)}}, b.Unpriced)
}

func TestBills(t *testing.T) {
	for _, c := range []struct {
		name            string
		work            Work
		prices          site.Prices
		net, tax, total string
		last            Kind
	}{
		{"the minimum is made up", Work{Hours: time.Hour}, bakery(), "390.00", "24.38", "414.38", Minimum}, // tax 24.375
		{"at the minimum nothing is made up", Work{}, site.Prices{Currency: "EUR", CallOut: d("50"), Minimum: d("50")}, "50.00", "0.00", "50.00", CallOut},
		{"a yen has no parts", Work{Hours: 90 * time.Minute}, site.Prices{Currency: "JPY", CrewHour: d("10001"), TaxPercent: d("10")}, "15002", "1500", "16502", CrewHours}, // 15001.5
		{"a dinar has a thousand", Work{Hours: time.Minute}, site.Prices{Currency: "KWD", CrewHour: d("1.0625")}, "0.021", "0.000", "0.021", CrewHours},                     // 0.02 h
		{"metres and cubic metres", Work{Pipe: []Stretch{{4, 12.25}}, Water: unit.Litres(1234)}, site.Prices{
			Currency: "EUR", Units: unit.Metric, Rates: []site.Rate{{UpTo: 4, Amount: d("3")}}, Water: d("5"),
		}, "43.07", "0.00", "43.07", Water}, // 12.3 x 3 + 1.234 x 5 = 36.90 + 6.17
		{"by hours alone", Work{Hours: 2 * time.Hour, Pipe: []Stretch{{4, 10}}}, site.Prices{Currency: "USD", CrewHour: d("99.99")}, "199.98", "0.00", "199.98", CrewHours},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, err := Price(&c.work, &c.prices)
			require.NoError(t, err)
			assert.Equal(t, []string{c.net, c.tax, c.total}, []string{b.Net.String(), b.Tax.String(), b.Total.String()})
			assert.Equal(t, c.last, b.Lines[len(b.Lines)-1].Kind)
			assert.Empty(t, b.Unpriced)
		})
	}
}

func TestWithoutPrices(t *testing.T) {
	w := day()
	_, err := Price(&w, &site.Prices{})
	require.ErrorIs(t, err, ErrNoPrices)
	assert.ErrorContains(t, err, "no currency")
	_, err = Price(&w, &site.Prices{Currency: "USD", TaxPercent: d("8"), Rates: []site.Rate{{UpTo: 4}}})
	require.ErrorIs(t, err, ErrNoPrices)
	assert.ErrorContains(t, err, "every price is nothing")
}

// An amount that no decimal holds is told with its line, and so is a quantity
// that is none.
func TestBeyondAllMeasure(t *testing.T) {
	p := site.Prices{Currency: "USD", Rates: []site.Rate{{UpTo: 24, Amount: d("999999999.9999")}}}
	w := Work{Pipe: []Stretch{{4, unit.Feet(9e11)}}}
	_, err := Price(&w, &p)
	require.ErrorContains(t, err, "pipe")
	require.ErrorContains(t, err, "19 digits")
	w.Pipe[0].Length = -1
	_, err = Price(&w, &p)
	require.ErrorContains(t, err, "no quantity")
}

// price is an amount as the document takes it: up to nine digits and four after
// the point.
func price(t *rapid.T, name string) decimal.Decimal {
	places := rapid.IntRange(0, 4).Draw(t, name+" places")
	whole := rapid.Int64Range(0, rapid.SampledFrom([]int64{0, 9, 999, 999_999_999}).Draw(t, name+" size")).Draw(t, name)
	part := rapid.Int64Range(0, []int64{0, 9, 99, 999, 9999}[places]).Draw(t, name+" part")
	return decimal.MustParse(fmt.Sprintf("%d.%0*d", whole, max(1, places), part))
}

func rational(v decimal.Decimal) *big.Rat {
	r, _ := new(big.Rat).SetString(v.String())
	return r
}

// halfUp rounds by the definition: the least multiple of a minor unit that is
// more than the value less half a unit.
func halfUp(v *big.Rat, places int) *big.Rat {
	ten := new(big.Rat).SetInt(power(places))
	v = new(big.Rat).Add(new(big.Rat).Mul(v, ten), big.NewRat(1, 2))
	return new(big.Rat).Quo(new(big.Rat).SetInt(new(big.Int).Quo(v.Num(), v.Denom())), ten)
}

// Money adds up, whatever the prices and the work: each line is its quantity
// times its rate, the lines and the tax are the total, to the last unit.
func TestMoneyAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := site.Prices{
			Currency: rapid.SampledFrom([]string{"USD", "EUR", "JPY", "KWD", "ZZZ"}).Draw(t, "currency"),
			Units:    rapid.SampledFrom([]unit.System{unit.US, unit.Metric}).Draw(t, "units"),
			CallOut:  price(t, "call-out"), CrewHour: price(t, "crew hour"), RootsRun: price(t, "roots run"),
			RootsLength: price(t, "roots"), Water: price(t, "water"), Disposal: price(t, "disposal"), Minimum: price(t, "minimum"),
			NightPercent: d(fmt.Sprintf("%d.%04d", rapid.IntRange(0, 999).Draw(t, "night"), rapid.IntRange(0, 9999).Draw(t, "of it"))),
			TaxPercent:   d(fmt.Sprintf("%d.%04d", rapid.IntRange(0, 999).Draw(t, "tax"), rapid.IntRange(0, 9999).Draw(t, "of it"))),
			Rates:        []site.Rate{{UpTo: 2, Amount: price(t, "small")}, {UpTo: 6, Amount: price(t, "large")}},
		}
		w := Work{
			Hours: time.Duration(rapid.Int64Range(0, int64(100*time.Hour)).Draw(t, "hours")), RootRuns: rapid.IntRange(0, 500).Draw(t, "root runs"),
			Roots: unit.Metres(rapid.Float64Range(0, 3000).Draw(t, "roots")), Water: unit.Litres(rapid.Float64Range(0, 1e6).Draw(t, "water")),
		}
		w.Night = time.Duration(rapid.Int64Range(0, int64(w.Hours)).Draw(t, "at night"))
		for _, size := range []unit.Size{1.5, 2, 4, 6, 8} {
			w.Pipe = append(w.Pipe, Stretch{size, unit.Metres(rapid.Float64Range(0, 3000).Draw(t, "pipe"))})
		}
		b, err := Price(&w, &p)
		if err != nil {
			require.ErrorIs(t, err, ErrNoPrices)
			return
		}
		places, sum := p.Places(), new(big.Rat)
		for _, l := range b.Lines {
			exact := new(big.Rat).Mul(rational(l.Quantity), rational(l.Rate))
			require.Zero(t, rational(l.Amount).Cmp(halfUp(exact, places)), "%v", l)
			require.Equal(t, places, l.Amount.Scale())
			sum.Add(sum, rational(l.Amount))
		}
		require.Zero(t, rational(b.Net).Cmp(sum))
		tax := new(big.Rat).Mul(sum, new(big.Rat).Quo(rational(p.TaxPercent), big.NewRat(100, 1)))
		require.Zero(t, rational(b.Tax).Cmp(halfUp(tax, places)))
		require.Zero(t, rational(b.Total).Cmp(sum.Add(sum, rational(b.Tax))))
		require.GreaterOrEqual(t, rational(b.Net).Cmp(halfUp(rational(p.Minimum), places)), 0)
	})
}

func TestAmounts(t *testing.T) {
	for _, c := range []struct {
		in     string
		places int
		want   string
	}{
		{"0", 2, "0.00"},
		{"7.5", 2, "7.50"},
		{"999", 0, "999"},
		{"1000", 0, "1,000"},
		{"1234567.891", 3, "1,234,567.891"},
		{"-1234.5", 2, "-1,234.50"},
		{"999999999999999.99", 2, "999,999,999,999,999.99"},
	} {
		assert.Equal(t, c.want, Amount(d(c.in), c.places))
	}
	assert.Equal(t, "82.50", Figure(d("82.5000"), 2))
	assert.Equal(t, "0.255", Figure(d("0.2550"), 2))
	assert.Equal(t, "110", Figure(d("110.0"), 0))
}
