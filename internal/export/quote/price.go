package quote

import (
	"errors"
	"fmt"
	"math"
	"time"

	"github.com/govalues/decimal"

	"linemap/internal/site"
	"linemap/internal/unit"
)

// ErrNoPrices says that a site has no prices to make a quote from. The error
// that is returned names what is missing.
var ErrNoPrices = errors.New("no prices")

// Kind tells what a line of a quote is for.
type Kind string

// The kinds of line, in the order in which they stand.
const (
	CallOut   Kind = "call_out"
	CrewHours Kind = "crew_hours"
	NightWork Kind = "night_hours"
	Pipe      Kind = "pipe"
	RootRuns  Kind = "root_runs"
	RootPipe  Kind = "root_pipe"
	Water     Kind = "water"
	Disposal  Kind = "disposal"
	Minimum   Kind = "minimum"
)

// Line is one line of a quote: Amount is Quantity times Rate, rounded.
type Line struct {
	Kind     Kind
	Size     unit.Size // of a line of pipe
	Quantity decimal.Decimal
	Rate     decimal.Decimal
	Amount   decimal.Decimal
}

// Bill is a job priced.
type Bill struct {
	Lines []Line
	// Net is the sum of the lines, Total that with Tax.
	Net, Tax, Total decimal.Decimal
	// Unpriced is pipe that is cleaned and larger than every rate.
	Unpriced []Stretch
}

// rateDigits is how many digits after the point a rate has, as in the document.
const rateDigits = 4

// Price prices work. It returns an error that wraps [ErrNoPrices] where no
// prices are given, and one that names the line where an amount is longer than
// a decimal holds.
func Price(w *Work, p *site.Prices) (*Bill, error) {
	if err := Given(p); err != nil {
		return nil, err
	}
	b := &billing{prices: p, places: p.Places(), bill: &Bill{}}
	b.add(CallOut, 0, p.CallOut, one, nil)
	hours, err := hundredths(w.Hours)
	b.add(CrewHours, 0, p.CrewHour, hours, err)
	if !p.NightPercent.IsZero() {
		extra, wrong := product(rateDigits, p.CrewHour, p.NightPercent, percent)
		hours, err := hundredths(w.Night)
		b.add(NightWork, 0, extra, hours, errors.Join(wrong, err))
	}
	b.pipe(w)
	b.add(RootRuns, 0, p.RootsRun, decimal.MustNew(int64(w.RootRuns), 0), nil)
	length, err := b.length(w.Roots)
	b.add(RootPipe, 0, p.RootsLength, length, err)
	volume, err := b.volume(w.Water)
	b.add(Water, 0, p.Water, volume, err)
	b.add(Disposal, 0, p.Disposal, one, nil)
	b.finish()
	return b.bill, b.err
}

var (
	one     = decimal.MustNew(1, 0)
	percent = decimal.MustNew(1, 2)
)

// Given names what is missing for a quote, in an error that wraps
// [ErrNoPrices]; nil where nothing is.
func Given(p *site.Prices) error {
	if !p.Given() {
		return fmt.Errorf("%w: the site has no currency and no prices; give a currency and at least one price "+
			"(a call-out, a crew hour, or rates for a length of pipe)", ErrNoPrices)
	}
	all := []decimal.Decimal{p.CallOut, p.CrewHour, p.RootsRun, p.RootsLength, p.Water, p.Disposal, p.Minimum}
	for _, r := range p.Rates {
		all = append(all, r.Amount)
	}
	for _, d := range all {
		if !d.IsZero() {
			return nil
		}
	}
	return fmt.Errorf("%w: the site has a currency (%s) and every price is nothing; give at least one "+
		"(a call-out, a crew hour, or rates for a length of pipe)", ErrNoPrices, p.Currency)
}

// billing is a bill being written. Its first error sticks.
type billing struct {
	prices *site.Prices
	places int
	bill   *Bill
	err    error
}

// add adds a line, unless it has no price or no quantity.
func (b *billing) add(kind Kind, size unit.Size, rate, quantity decimal.Decimal, err error) {
	if b.err != nil || rate.IsZero() || err == nil && quantity.IsZero() {
		return
	}
	var amount decimal.Decimal
	if err == nil {
		amount, err = product(b.places, rate, quantity)
	}
	if err != nil {
		b.err = fmt.Errorf("the amount of the line %s, %s times %s, cannot be told: %w", kind, quantity, rate, err)
		return
	}
	b.bill.Lines = append(b.bill.Lines, Line{kind, size, quantity, rate, amount})
}

// pipe adds a line for each nominal size that has a rate.
func (b *billing) pipe(w *Work) {
	if len(b.prices.Rates) == 0 {
		return
	}
	for _, s := range w.Pipe {
		rate, ok := b.prices.Rate(s.Size)
		if !ok {
			b.bill.Unpriced = append(b.bill.Unpriced, s)
			continue
		}
		length, err := b.length(s.Length)
		b.add(Pipe, s.Size, rate, length, err)
	}
}

// finish adds what is missing to the minimum, then sum, tax and total.
func (b *billing) finish() {
	if b.err != nil {
		return
	}
	net := b.sum()
	least, err := product(b.places, b.prices.Minimum)
	if err != nil {
		b.err = fmt.Errorf("the minimum: %w", err)
		return
	}
	if missing, err := least.SubExact(net, b.places); err == nil && missing.IsPos() {
		b.add(Minimum, 0, missing, one, nil)
		net = b.sum()
	}
	tax, err := product(b.places, net, b.prices.TaxPercent, percent)
	if err != nil {
		b.fail(fmt.Errorf("tax of %s %% on %s: %w", b.prices.TaxPercent, net, err))
		return
	}
	total, err := net.AddExact(tax, b.places)
	b.fail(err)
	b.bill.Net, b.bill.Tax, b.bill.Total = net, tax, total
}

// sum adds up the lines.
func (b *billing) sum() decimal.Decimal {
	sum := decimal.MustNew(0, b.places)
	for _, l := range b.bill.Lines {
		next, err := sum.AddExact(l.Amount, b.places)
		b.fail(err)
		sum = next
	}
	return sum
}

func (b *billing) fail(err error) {
	if b.err == nil {
		b.err = err
	}
}

// hundredths is a time in hours, half up.
func hundredths(d time.Duration) (decimal.Decimal, error) {
	const step = time.Hour / 100
	return decimal.New(int64((d+step/2)/step), 2)
}

// length is a length in what the rates are for, to a tenth.
func (b *billing) length(l unit.Length) (decimal.Decimal, error) {
	if b.prices.Units == unit.Metric {
		return written(l.Metres(), 1)
	}
	return written(l.Feet(), 1)
}

// volume is a volume in what the price of water is for, cubic metres or thousand
// gallons, to a thousandth.
func (b *billing) volume(v unit.Volume) (decimal.Decimal, error) {
	if b.prices.Units == unit.Metric {
		return written(v.Litres()/1000, 3)
	}
	return written(v.Gallons()/1000, 3)
}

// written is a measure as a decimal with so many digits after the point.
func written(v float64, places int) (decimal.Decimal, error) {
	const most = 1e12
	if !(v >= 0 && v < most) {
		return decimal.Decimal{}, fmt.Errorf("%g is no quantity: it must be from 0 to below %g", v, most)
	}
	return decimal.New(int64(math.Round(v*math.Pow10(places))), places)
}
