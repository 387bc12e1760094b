package export

import (
	"github.com/govalues/decimal"

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
