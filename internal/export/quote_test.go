package export

import (
	"bytes"
	"encoding/csv"
	"errors"
	"math/big"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/export/paper"
	"linemap/internal/export/quote"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// priced is a site with prices: its own, or invented ones in its units.
func priced(s *site.Site) *site.Site {
	if s.Prices.Given() {
		return s
	}
	d := decimal.MustParse
	s = s.Clone()
	s.Prices = site.Prices{
		Currency: "EUR", Units: s.Units, CallOut: d("95"), CrewHour: d("148.50"),
		Rates:    []site.Rate{{UpTo: 2, Amount: d("3.10")}, {UpTo: 4, Amount: d("4.25")}, {UpTo: 8, Amount: d("6.80")}},
		RootsRun: d("55"), RootsLength: d("1.15"), NightPercent: d("50"), NightFrom: "15:00", NightTo: "06:00",
		Water: d("4.80"), Disposal: d("60"), Minimum: d("350"), TaxPercent: d("21"), ValidDays: 45,
		Terms: "Half is paid before work starts, the rest within 14 days.\n\nOpening walls or floors is not part of the price.\n",
	}
	if s.Units == unit.US {
		s.Prices.Currency = "USD"
	}
	return s
}

// quoteSite is a small yard with its plan, and a pipe that no hose reaches.
func quoteSite(t testing.TB) (*site.Site, *site.Tables, *route.Plan) {
	t.Helper()
	s := sample.Sketch(`OUT -20ft/6in/out- MH1(label=MH-1 size=24in) -60ft/4in/roots/label=D1- CO1(label=CO-1) -40ft/4in/grease/label=D2- W1 -10ft/3in/grease/heavy/label=L1- F1(label=Sink)
		W1 ~12ft/1.25in/lateral/grease/label=L2- F2(label=Basin)`, [2]float64{10, 20})
	s.Job = site.Job{
		Title: "Rolling Pin Bakery, drains", Customer: "Rolling Pin Bakery", Address: "18 Fictive Lane, Inventown",
		Contact: "R. Dough", Phone: "555-0142", Date: "2026-03-17", Start: "13:30", Revision: "B", Estimator: "P. Lanner",
	}
	s = priced(s)
	p, err := route.Solve(t.Context(), s, sample.Tables(), route.Options{})
	require.NoError(t, err)
	require.NotEmpty(t, p.Shortfalls)
	require.NotEmpty(t, p.Runs())
	return s, sample.Tables(), p
}

// Worked by hand from the figures of the plan of the bakery's yard, which the
// planner's own tests vouch for: the table on the paper is the bill in words.
func TestQuoteLines(t *testing.T) {
	s, tables, p := quoteSite(t)
	q, err := newQuoteSheet(s, tables, p, Options{})
	require.NoError(t, err)
	hours, _ := decimal.New(int64((p.Cost+18*time.Second)/(36*time.Second)), 2)
	by := map[string]quoteLine{}
	for _, l := range q.Lines {
		by[l.What] = l
	}
	assert.Equal(t, quoteLine{"Call-out", "Once for the job", "1", "job", "95.00", "95.00"}, by["Call-out"])
	assert.Equal(t, hours.String(), by["Crew of 2 people"].Quantity)
	// 60 ft with roots and 40 ft without are 4 in: 100.0 x 4.25; 10 ft are 3 in.
	assert.Equal(t, quoteLine{"Cleaning 4 in pipe", "Length that the planned runs clean", "100.0", "ft", "4.25", "425.00"}, by["Cleaning 4 in pipe"])
	assert.Equal(t, "42.50", by["Cleaning 3 in pipe"].Amount)
	assert.Equal(t, quoteLine{"Extra for pipe with roots", "Length noted as rooted", "60.0", "ft", "1.15", "69.00"}, by["Extra for pipe with roots"])
	assert.Equal(t, "Total USD", q.Sums[len(q.Sums)-1].Name)
	assert.Equal(t, "USD "+q.Sums[2].Say, q.Figures[0].Say)
	assert.Equal(t, q.Figures[0].Say, q.Ranges[1].Total, "the likely case is the quote")
	require.Len(t, q.Left, 2)
	assert.Equal(t, "12 ft of 1 1/4 in lateral, L2: it, or the way to it, is too narrow for our hose.", q.Left[0])
	assert.Equal(t, "20 ft of pipe (1 pipe) that is on the drawing and is no part of this job.", q.Left[1])
	assert.Equal(t, "This quote stands for 45 days from its date.", q.Validity)
	assert.Empty(t, q.Date, "filled in by hand")
}

// TestQuoteWithItsDate works the last day out, over the end of a February.
func TestQuoteWithItsDate(t *testing.T) {
	s, tables, p := quoteSite(t)
	s.Prices.Date = "2026-02-25"
	q, err := newQuoteSheet(s, tables, p, Options{})
	require.NoError(t, err)
	assert.Equal(t, "Wed, Feb 25, 2026", q.Date)
	assert.Equal(t, "Sat, Apr 11, 2026", q.Until, "45 days later")
	out, err := Quote(s, tables, p, Options{})
	require.NoError(t, err)
	text := outside(t, out, "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })
	assert.Regexp(t, `Date of quote +Wed, Feb 25, 2026`, text)
	assert.Regexp(t, `Stands until +Sat, Apr 11, 2026`, text)
	s.Prices.ValidDays = 0
	q, err = newQuoteSheet(s, tables, p, Options{})
	require.NoError(t, err)
	assert.Empty(t, q.Until)
}

func TestQuoteReasonsArePlain(t *testing.T) {
	s, tables, p := quoteSite(t)
	q, err := newQuoting(s, tables, p, Options{})
	require.NoError(t, err)
	seen := map[string]route.Reason{}
	for _, reason := range []route.Reason{
		route.OverReel, route.OverBends, route.HoseTooLarge, route.HoseTooSmall, route.NoAccess, route.TurnTooSharp, route.BranchTurn,
		route.PullShort, route.NoNozzle, route.Blocked, route.NoWater, route.NoSpot, route.NoHose, route.BarredByHand,
	} {
		said := q.plainly(&route.Shortfall{Reason: reason})
		assert.NotContains(t, said, "_")
		assert.NotEqual(t, string(reason), said)
		assert.Empty(t, seen[said], "%s and %s read the same", reason, seen[said])
		seen[said] = reason
	}
	assert.Equal(t, "a backwater valve is in the way", q.plainly(&route.Shortfall{Reason: route.Blocked, What: "backwater_valve"}))
}

// The low case takes no longer at the pipes than the likely one, the high case
// no less; the demos show a range.
func TestQuoteRange(t *testing.T) {
	for _, d := range demos(t) {
		t.Run(d.name, func(t *testing.T) {
			low, err := d.plan.Shifted(d.site, d.tables, route.Milder)
			require.NoError(t, err)
			high, err := d.plan.Shifted(d.site, d.tables, route.Worse)
			require.NoError(t, err)
			q, err := newQuoteSheet(priced(d.site), d.tables, d.plan, Options{})
			require.NoError(t, err)
			assert.Less(t, low.Cost, d.plan.Cost)
			assert.Less(t, d.plan.Cost, high.Cost)
			for i, cost := range []time.Duration{low.Cost, d.plan.Cost, high.Cost} {
				assert.Equal(t, unit.Minutes(cost), q.Ranges[i].Hours)
			}
		})
	}
}

func TestQuoteWithoutPrices(t *testing.T) {
	for _, make := range []func(*site.Site, *site.Tables, *route.Plan, Options) ([]byte, error){Quote, QuoteCSV} {
		out, err := make(fixtureSite(), fixtureTables(), fixturePlan(), Options{})
		assert.Nil(t, out)
		require.Error(t, err)
		assert.True(t, errors.Is(err, quote.ErrNoPrices))
		assert.Contains(t, err.Error(), "quote: no prices: the site has no currency")
	}
}

// The table adds up by itself, as whoever opens it in a spreadsheet will see.
func TestQuoteCSVAddsUp(t *testing.T) {
	for _, d := range demos(t) {
		t.Run(d.name, func(t *testing.T) {
			s := priced(d.site)
			out, err := QuoteCSV(s, d.tables, d.plan, Options{})
			require.NoError(t, err)
			assert.Equal(t, bytes.Count(out, []byte("\n")), bytes.Count(out, []byte("\r\n")))
			rows, err := csv.NewReader(bytes.NewReader(out)).ReadAll()
			require.NoError(t, err)
			rational := func(s string) *big.Rat {
				r, ok := new(big.Rat).SetString(s)
				require.True(t, ok, s)
				return r
			}
			sum, ends, left := new(big.Rat), map[string]*big.Rat{}, 0
			for _, r := range rows[1:] {
				switch r[0] {
				case "net", "tax", "total":
					ends[r[0]] = rational(r[6])
				case "not_included":
					left++
					assert.Empty(t, r[6])
				default:
					exact, _ := new(big.Rat).Mul(rational(r[3]), rational(r[5])).Float64()
					amount, _ := rational(r[6]).Float64()
					assert.InDelta(t, exact, amount, 0.005+1e-9, r)
					sum.Add(sum, rational(r[6]))
				}
			}
			assert.Zero(t, sum.Cmp(ends["net"]))
			assert.Zero(t, sum.Add(sum, ends["tax"]).Cmp(ends["total"]))
			assert.Equal(t, len(d.plan.Shortfalls), left)
		})
	}
}

func TestQuoteGoldens(t *testing.T) {
	s, tables, p := quoteSite(t)
	for _, sys := range []unit.System{unit.US, unit.Metric} {
		out, err := QuoteCSV(s, tables, p, Options{Units: sys})
		require.NoError(t, err)
		golden(t, "quote-"+string(sys)+".csv", out)
	}
}

func TestQuoteIsAPaper(t *testing.T) {
	s, tables, p := quoteSite(t)
	isAPaper(t, "quote", func(opt Options) ([]byte, error) { return Quote(s, tables, p, opt) },
		[]string{"Quote", "Price", "Low, likely and high", "Included", "Not included", "How it adds up", "Terms", "Agreed"})
	q, err := newQuoteSheet(s, tables, p, Options{})
	require.NoError(t, err)
	out, err := Quote(s, tables, p, Options{})
	require.NoError(t, err)
	everyTextIsFound(t, out, q)
}

func TestDemoQuotesAreInOrder(t *testing.T) {
	for _, d := range demos(t) {
		t.Run(d.name, func(t *testing.T) {
			everyForm(t, func(t *testing.T, opt Options) {
				out, err := Quote(priced(d.site), d.tables, d.plan, opt)
				require.NoError(t, err)
				for i, page := range words(t, out) {
					checkPage(t, i+1, page)
				}
			})
		})
	}
}

// Prices as high as the document takes, a long title, long names and terms of
// many pages: all of it is set, nothing of the money is cut.
func TestHostileQuote(t *testing.T) {
	s, tables, p := quoteSite(t)
	s = s.Clone()
	most := decimal.MustParse("999999999.9999")
	s.Prices = site.Prices{
		Currency: "USD", Units: unit.US, CallOut: most, CrewHour: most, Rates: []site.Rate{{UpTo: 24, Amount: most}}, RootsRun: most,
		RootsLength: most, NightPercent: decimal.MustParse("999.9999"), NightFrom: "00:00", NightTo: "23:59", Water: most, Disposal: most,
		TaxPercent: decimal.MustParse("999.9999"), ValidDays: 3650, Terms: strings.Repeat("No work before noon. ", 2500) + "\nThe last word.",
	}
	s.Job.Title, s.Job.Customer = strings.Repeat("Drains ", 40), strings.Repeat("W", 200)
	everyForm(t, func(t *testing.T, opt Options) {
		out, err := Quote(s, tables, p, opt)
		require.NoError(t, err)
		text := outside(t, out, "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })
		q, err := newQuoteSheet(s, tables, p, opt)
		require.NoError(t, err)
		for _, l := range q.Lines {
			assert.Contains(t, text, l.Amount)
		}
		assert.Contains(t, text, q.Sums[2].Say)
		assert.Equal(t, 2500, strings.Count(text, "noon."))
		assert.Contains(t, text, "The last word.")
		for i, page := range words(t, out) {
			for _, w := range page.Words {
				assert.LessOrEqual(t, w.XMax, page.Width-paper.Margin/paper.MMPerPoint+0.5, "page %d: %s", i+1, w.Text)
			}
		}
	})
}

// A site with no runs, and one of very many.
func TestQuotesOfAllSizes(t *testing.T) {
	s, tables, _ := quoteSite(t)
	out, err := Quote(s, tables, &route.Plan{}, Options{})
	require.NoError(t, err)
	text := outside(t, out, "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })
	assert.Contains(t, text, "no drain of this job can be cleaned")
	assert.Contains(t, text, "Up to the minimum")
}

// Money adds up for random sites, plans and prices.
func TestRandomQuotesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sample.Random(newRand(rapid.Uint64().Draw(t, "seed")), rapid.IntRange(1, 8).Draw(t, "pipes"))
		amount := func(name string) decimal.Decimal {
			return decimal.MustNew(rapid.Int64Range(0, 9_999_999_999).Draw(t, name), rapid.IntRange(0, 4).Draw(t, name+" places"))
		}
		s.Job.Start = "15:00"
		s.Prices = site.Prices{
			Currency: rapid.SampledFrom([]string{"USD", "JPY", "KWD"}).Draw(t, "currency"), CallOut: amount("call-out"), CrewHour: amount("hour"),
			Rates: []site.Rate{{UpTo: 24, Amount: amount("rate")}}, Water: amount("water"), TaxPercent: decimal.MustParse("8.25"),
			NightPercent: decimal.MustParse("33.3333"), NightFrom: "16:00", NightTo: "17:00",
		}
		p, err := route.Solve(t.Context(), s, sample.Tables(), route.Options{})
		require.NoError(t, err)
		q, err := newQuoteSheet(s, sample.Tables(), p, Options{})
		if errors.Is(err, quote.ErrNoPrices) {
			return
		}
		require.NoError(t, err)
		value := func(s string) *big.Rat {
			r, _ := new(big.Rat).SetString(strings.ReplaceAll(s, ",", ""))
			return r
		}
		sum := new(big.Rat)
		for _, l := range q.Lines {
			sum.Add(sum, value(l.Amount))
		}
		require.Zero(t, sum.Cmp(value(q.Sums[0].Say)))
		require.Zero(t, sum.Add(sum, value(q.Sums[1].Say)).Cmp(value(q.Sums[2].Say)))
	})
}

func FuzzQuoteTexts(f *testing.F) {
	s, tables, p := quoteSite(f)
	for _, text := range []string{"", strings.Repeat("W", 3000), "🚽", "a\x00b", "\xff", "line\nbreak\ttab", "=1+1"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		named := s.Clone()
		rename(reflect.ValueOf(&named.Job).Elem(), text, false)
		named.Job.Date, named.Prices.Terms = s.Job.Date, text
		for i := range named.Network.Nodes {
			named.Network.Nodes[i].Label, named.Network.Nodes[i].Note = text, text
		}
		for i := range named.Network.Pipes {
			named.Network.Pipes[i].Label = text
		}
		_, err := Quote(named, tables, p, Options{})
		require.NoError(t, err)
		_, err = QuoteCSV(named, tables, p, Options{})
		require.NoError(t, err)
		_, err = Notice(named, tables, p, Options{})
		require.NoError(t, err)
	})
}
