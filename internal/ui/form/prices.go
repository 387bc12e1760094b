package form

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"github.com/govalues/decimal"

	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// PricesForm opens the form of the contractor's prices, from which a quote is
// made.
func PricesForm(d *desk.Desk, w fyne.Window) {
	p := newPriceList(d)
	open(d, w, "Prices", fyne.NewSize(520, 600), p.page, p)
}

// priceList is the form of the prices with its rates, of which there may be more
// or fewer.
type priceList struct {
	desk  *desk.Desk
	about subject[site.Prices]
	page  *page
	place *fyne.Container
	sheet *sheet[site.Prices]
	made  int // the number of rates that the sheet was made for
	more  *fyne.Container
}

func newPriceList(d *desk.Desk) *priceList {
	p := &priceList{desk: d, place: container.New(&stack{}), made: -1}
	p.about = partOf(d, func(s *site.Site) *site.Prices { return &s.Prices }, site.Prices.Clone,
		func(s *site.Site, v site.Prices) (*edit.Edit, error) { return edit.SetPrices(s, v) }, "prices")
	add := iconButton("Add a rate", theme.IconNameContentAdd, func() { p.rates(addRate) })
	remove := iconButton("Remove the last rate", theme.IconNameDelete, func() {
		p.rates(func(r []site.Rate) []site.Rate { return r[:max(0, len(r)-1)] })
	})
	p.more = container.NewHBox(add, remove)
	p.page = newPage(fyne.NewSize(300, 200), p.place, p.more)
	return p
}

// rates changes the list of rates as one edit.
func (p *priceList) rates(to func([]site.Rate) []site.Rate) {
	if p.sheet == nil || !p.sheet.settle() {
		return
	}
	// A new row is right by itself, so the schema has nothing against it but
	// their number, and that is said where the last row stands.
	err := p.about.change("", func(v *site.Prices) {
		if v.Rates = to(v.Rates); len(v.Rates) == 0 {
			v.Rates = nil
		}
	})
	if err != nil && len(p.sheet.lines) > 0 {
		p.sheet.lines[len(p.sheet.lines)-1].say(err)
	}
}

// addRate adds a rate for the size above the largest.
func addRate(r []site.Rate) []site.Rate {
	for _, size := range unit.Sizes() {
		if len(r) == 0 || size > r[len(r)-1].UpTo {
			return append(slices.Clip(r), site.Rate{UpTo: size})
		}
	}
	return r // every size has its rate
}

func (p *priceList) refresh() {
	v := &p.desk.Site().Prices
	if n := len(v.Rates); n != p.made {
		p.made = n
		p.sheet = newSheet(p.desk, p.about, func() { p.page.again() }, priceFields(n)...)
		p.place.Objects = []fyne.CanvasObject{p.sheet.box}
	}
	if v.Given() {
		p.more.Show()
	} else {
		p.more.Hide()
	}
	p.sheet.refresh()
	p.page.again()
}

func (p *priceList) settle() bool { return p.sheet == nil || p.sheet.settle() }

func priceFields(rates int) []field[site.Prices] {
	type prices = site.Prices
	currency := text("Currency", "currency", func(v *prices) *string { return &v.Currency }).like("USD; none for no prices")
	take := currency.read
	currency.read = func(d *desk.Desk, text string) (func(*prices), error) {
		to, err := take(d, strings.ToUpper(text))
		if err != nil {
			return nil, err
		}
		return func(v *prices) {
			if to(v); v.Currency == "" {
				*v = prices{}
			} else if v.Units == "" {
				v.Units = d.Units()
			}
		}, nil
	}
	fields := []field[prices]{
		currency,
		choice("By measure", given(func(v *prices) *unit.System { return &v.Units }), func(*desk.Desk, *prices) []option[unit.System] {
			return []option[unit.System]{{unit.US, "For 1 ft and 1,000 gal"}, {unit.Metric, "For 1 m and 1 m³"}}
		}),
		amount("Call-out", "call_out", func(v *prices) *decimal.Decimal { return &v.CallOut }),
		amount("Hour of the crew", "crew_hour", func(v *prices) *decimal.Decimal { return &v.CrewHour }),
		amount("Run that cuts roots", "roots_run", func(v *prices) *decimal.Decimal { return &v.RootsRun }),
		amount("Length with roots", "roots_length", func(v *prices) *decimal.Decimal { return &v.RootsLength }),
		amount("Night, extra %", "night_percent", func(v *prices) *decimal.Decimal { return &v.NightPercent }),
		text("Night from", "night_from", given(func(v *prices) *string { return &v.NightFrom })).like("18:00"),
		text("Night to", "night_to", given(func(v *prices) *string { return &v.NightTo })).like("06:00"),
		amount("Volume of water", "water", func(v *prices) *decimal.Decimal { return &v.Water }),
		amount("Taking away", "disposal", func(v *prices) *decimal.Decimal { return &v.Disposal }),
		amount("Least for a job", "minimum", func(v *prices) *decimal.Decimal { return &v.Minimum }),
		amount("Tax, %", "tax_percent", func(v *prices) *decimal.Decimal { return &v.TaxPercent }),
		text("Date of the quote", "date", given(func(v *prices) *string { return &v.Date })).like("filled in by hand"),
		whole("Days it stands", "valid_days", given(func(v *prices) *int { return &v.ValidDays })),
		note("Terms", "terms", given(func(v *prices) *string { return &v.Terms })),
	}
	for i := range rates {
		rate := fmt.Sprintf("Rate %d, ", i+1)
		fields = append(fields,
			sizes(rate+"up to", "rates.up_to", func(v *prices) *unit.Size {
				if i >= len(v.Rates) {
					return nil
				}
				return &v.Rates[i].UpTo
			}),
			amount(rate+"a length", "rates.amount", func(v *prices) *decimal.Decimal {
				if i >= len(v.Rates) {
					return nil
				}
				return &v.Rates[i].Amount
			}))
	}
	return fields
}

// given looks at a figure of prices that there are.
func given[P any](at func(*site.Prices) *P) func(*site.Prices) *P {
	return func(v *site.Prices) *P {
		if !v.Given() {
			return nil
		}
		return at(v)
	}
}

// amount is a field for an amount of money, exact as it is written; none is
// nothing.
func amount(label, member string, of func(*site.Prices) *decimal.Decimal) field[site.Prices] {
	_, err := site.RangeOf(site.Prices{}, member)
	at := given(of)
	return field[site.Prices]{
		label: label, fault: err, hint: "nothing",
		show: func(_ *desk.Desk, v *site.Prices) (string, bool) {
			p := at(v)
			if p == nil || p.IsZero() {
				return "", p != nil
			}
			return p.String(), true
		},
		read: func(_ *desk.Desk, text string) (func(*site.Prices), error) {
			var sum decimal.Decimal
			if text = strings.TrimSpace(text); text != "" {
				var err error
				if sum, err = decimal.Parse(text); err != nil {
					return nil, fmt.Errorf("%.60q is no amount: write it like 125.00", text)
				}
			}
			if sum.IsZero() {
				sum = decimal.Decimal{}
			}
			return func(v *site.Prices) {
				if p := at(v); p != nil {
					*p = sum
				}
			}, nil
		},
	}
}
