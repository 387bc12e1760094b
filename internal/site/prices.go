package site

import (
	"fmt"
	"slices"

	"github.com/govalues/decimal"
	"golang.org/x/text/currency"

	"linemap/internal/unit"
)

// Prices are the contractor's prices, from which a quote is made. An amount is
// in Currency, exact as it was written; one that is left out is nothing. They
// are given where Currency is.
type Prices struct {
	// Currency is a code of ISO 4217, such as USD.
	Currency string `json:"currency"`
	// Units says what prices by measure are for: a foot and a thousand gallons,
	// or a metre and a cubic metre. They stay as agreed where the site changes
	// its units.
	Units unit.System `json:"units"`
	// CallOut is charged once for the job, CrewHour for each hour of the whole
	// crew.
	CallOut  decimal.Decimal `json:"call_out,omitzero"`
	CrewHour decimal.Decimal `json:"crew_hour,omitzero"`
	// Rates are for a length of pipe cleaned, smallest sizes first.
	Rates []Rate `json:"rates,omitzero"`
	// RootsRun is the extra for each run that cuts roots, RootsLength for a
	// length of pipe with roots.
	RootsRun    decimal.Decimal `json:"roots_run,omitzero"`
	RootsLength decimal.Decimal `json:"roots_length,omitzero"`
	// NightPercent is the extra on crew hours from NightFrom to NightTo, times
	// such as 18:00 and 06:00. Without both there is no night.
	NightPercent decimal.Decimal `json:"night_percent,omitzero"`
	NightFrom    string          `json:"night_from,omitzero"`
	NightTo      string          `json:"night_to,omitzero"`
	// Water is for a volume of water used, Disposal once for what comes out.
	Water    decimal.Decimal `json:"water,omitzero"`
	Disposal decimal.Decimal `json:"disposal,omitzero"`
	// Minimum is the least that a job costs before tax.
	Minimum    decimal.Decimal `json:"minimum,omitzero"`
	TaxPercent decimal.Decimal `json:"tax_percent,omitzero"`
	// Date is the day of the quote, 2026-03-02, empty for one that is filled in by
	// hand.
	Date string `json:"date,omitzero"`
	// ValidDays is how long a quote stands, 0 for what it does not say.
	ValidDays int    `json:"valid_days,omitzero"`
	Terms     string `json:"terms,omitzero"`
}

// Rate is the price of cleaning a length of pipe of a nominal size up to UpTo
// and above that of the row before.
type Rate struct {
	UpTo   unit.Size       `json:"up_to"`
	Amount decimal.Decimal `json:"amount"`
}

// Given reports whether there are prices.
func (p Prices) Given() bool { return p.Currency != "" }

// Clone returns a copy that shares nothing with p.
func (p Prices) Clone() Prices {
	p.Rates = slices.Clone(p.Rates)
	return p
}

// Rate returns the price of a length of pipe, false where it is larger than
// every row.
func (p Prices) Rate(size unit.Size) (decimal.Decimal, bool) {
	for _, r := range p.Rates {
		if size <= r.UpTo {
			return r.Amount, true
		}
	}
	return decimal.Decimal{}, false
}

// Places returns how many digits after the point a sum in the currency has, by
// ISO 4217: 2 for USD, 0 for JPY, and 2 where the code is not known.
func (p Prices) Places() int {
	const usual = 2
	u, err := currency.ParseISO(p.Currency)
	if err != nil {
		return usual
	}
	places, _ := currency.Standard.Rounding(u)
	return places
}

// checkPrices finds rows out of order, and a day that no calendar has.
func checkPrices(p *problems, in string, v *Prices) {
	checkDate(p, at("%sdate", in), v.Date)
	for i := 1; i < len(v.Rates); i++ {
		if size, last := v.Rates[i].UpTo, v.Rates[i-1].UpTo; size <= last {
			p.add(at("%srates[%d].up_to", in, i), fmt.Sprintf("%v in nominal", float64(size)),
				fmt.Sprintf("a size above %v in nominal, that of the row before", float64(last)))
		}
	}
}
