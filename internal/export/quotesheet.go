package export

import (
	"fmt"
	"time"

	"github.com/govalues/decimal"

	"linemap/internal/export/quote"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// quoteSheet is what stands on a quote, in reading order and in finished words.
type quoteSheet struct {
	Title    string
	Revision string
	Job      []fact
	Figures  []fact // the quote in a handful of numbers, the total first
	Currency string
	Lines    []quoteLine
	Sums     []fact // sum, tax, total last
	Ranges   []quoteRange
	Range    string // how the ranges were got
	Scope    []string
	Left     []string // what is not included, a sentence for each pipe
	Remarks  []string
	Date     string // "" where it is filled in by hand
	Until    string // the last day that the quote stands, where both are known
	Validity string // "" where the quote does not say
	Terms    string
	Customer string
	Signer   string
}

// quoteLine is one line of the table.
type quoteLine struct {
	What, Source                 string
	Quantity, Unit, Rate, Amount string
}

// quoteRange is the job in one case: hours, water and total.
type quoteRange struct{ Case, Hours, Water, Total string }

// quoting puts a priced plan into words.
type quoting struct {
	*wording
	plan   *route.Plan
	prices *site.Prices
	work   quote.Work
	bill   *quote.Bill
}

// newQuoting prices a plan.
func newQuoting(s *site.Site, t *site.Tables, p *route.Plan, opt Options) (*quoting, error) {
	g, _ := network.Trace(&s.Network)
	q := &quoting{
		wording: &wording{sys: opt.For(s).Units, site: s, tables: t, graph: g},
		plan:    p, prices: &s.Prices, work: quote.Measure(s, p),
	}
	var err error
	q.bill, err = quote.Price(&q.work, q.prices)
	return q, err
}

// newQuoteSheet words a plan and its price for the customer.
func newQuoteSheet(s *site.Site, t *site.Tables, p *route.Plan, opt Options) (*quoteSheet, error) {
	q, err := newQuoting(s, t, p, opt)
	if err != nil {
		return nil, err
	}
	ranges, err := q.ranges()
	if err != nil {
		return nil, err
	}
	return &quoteSheet{
		Title: title(s), Revision: s.Job.Revision, Job: q.jobFacts(), Figures: q.quoteFigures(),
		Currency: q.prices.Currency, Lines: q.quoteLines(), Sums: q.sums(),
		Ranges: ranges, Range: rangeSource, Scope: q.scope(), Left: q.notIncluded(), Remarks: q.remarks(),
		Date: day(q.sys, q.prices.Date), Until: q.until(), Validity: q.validity(), Terms: q.prices.Terms, Customer: s.Job.Customer, Signer: s.Job.Estimator,
	}, nil
}

func (q *quoting) jobFacts() []fact {
	job, when := &q.site.Job, q.when()
	return []fact{
		{"For", job.Customer},
		{"At", job.Address},
		{"Contact", list(job.Contact, job.Phone)},
		{"Day of the job", list(when[0].Say, when[1].Say)},
		{"Quoted by", job.Estimator},
	}
}

func (q *quoting) quoteFigures() []fact {
	total := "Total"
	if !q.bill.Tax.IsZero() {
		total = "Total with tax"
	}
	return []fact{
		{total, q.money(q.bill.Total)},
		{"Planned crew time", unit.Minutes(q.work.Hours)},
		{"Pipe to clean", q.sys.Length(q.work.Length())},
	}
}

// money writes an amount with its currency.
func (q *quoting) money(d decimal.Decimal) string { return q.prices.Currency + " " + q.amount(d) }

// amount writes an amount.
func (q *quoting) amount(d decimal.Decimal) string { return quote.Amount(d, q.prices.Places()) }

// until is the last day that the quote stands, "" where it does not say or has no
// date.
func (q *quoting) until() string {
	from, err := time.Parse(time.DateOnly, q.prices.Date)
	if err != nil || q.prices.ValidDays == 0 {
		return ""
	}
	return day(q.sys, from.AddDate(0, 0, q.prices.ValidDays).Format(time.DateOnly))
}

// validity says how long the quote stands.
func (q *quoting) validity() string {
	if q.prices.ValidDays == 0 {
		return ""
	}
	return fmt.Sprintf("This quote stands for %s from its date.", counted(q.prices.ValidDays, "day"))
}

// sums are the sum of the lines, the tax and the total.
func (q *quoting) sums() []fact {
	total := fact{"Total " + q.prices.Currency, q.amount(q.bill.Total)}
	if q.prices.TaxPercent.IsZero() {
		return []fact{total}
	}
	return []fact{
		{"Sum", q.amount(q.bill.Net)},
		{"Tax, " + q.percent(q.prices.TaxPercent) + " of the sum", q.amount(q.bill.Tax)},
		total,
	}
}

// percent writes a percentage without noughts that say nothing.
func (q *quoting) percent(d decimal.Decimal) string { return d.Trim(0).String() + " %" }
