package export

import (
	"bytes"
	"encoding/csv"
	"fmt"

	"github.com/govalues/decimal"

	"linemap/internal/export/quote"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// QuoteCSV is the quote as a table, in the form of [PlanCSV]: a row for each
// line, whose amount is its quantity times its rate, rounded half up; then a row
// each for the sum (net), the tax and the total, which are not to be added to
// the lines; then a row without an amount for each pipe that is not included.
// Figures have no commas. It fails as [Quote] does.
func QuoteCSV(s *site.Site, t *site.Tables, p *route.Plan, opt Options) ([]byte, error) {
	q, err := newQuoting(s, t, p, opt)
	if err != nil {
		return nil, fmt.Errorf("quote: %w", err)
	}
	var out bytes.Buffer
	file := csv.NewWriter(&out)
	file.UseCRLF = true
	rows := [][]string{{"row", "what", "source", "quantity", "unit", "rate", "amount", "currency"}}
	currency, places := guarded(q.prices.Currency), q.prices.Places()
	for i := range q.bill.Lines {
		l := &q.bill.Lines[i]
		what, source, per := q.lineWords(l)
		rows = append(rows, []string{
			string(l.Kind), guarded(what), guarded(source), l.Quantity.String(), q.csvUnit(l, per), l.Rate.Trim(places).Pad(places).String(), l.Amount.String(), currency,
		})
	}
	sum := func(row, what, quantity, per string, amount decimal.Decimal) {
		rows = append(rows, []string{row, what, "", quantity, per, "", amount.String(), currency})
	}
	sum("net", "Sum of the lines", "", "", q.bill.Net)
	sum("tax", "Tax", q.prices.TaxPercent.String(), "percent of the sum", q.bill.Tax)
	sum("total", "Total", "", "", q.bill.Total)
	rows = append(rows, q.csvLeft()...)
	if err := file.WriteAll(rows); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// csvUnit is what a rate is for, in plain letters.
func (q *quoting) csvUnit(l *quote.Line, per string) string {
	if l.Kind != quote.Water {
		return per
	}
	if q.prices.Units == unit.Metric {
		return "m3"
	}
	return "1000 gal"
}

// csvLeft lists what is not included.
func (q *quoting) csvLeft() [][]string {
	units := csvUnits(q.sys)
	var rows [][]string
	for i := range q.plan.Shortfalls {
		s := &q.plan.Shortfalls[i]
		rows = append(rows, []string{
			"not_included", guarded(capital(q.pipeForCustomer(s.Pipe, s.Name))), guarded(capital(q.plainly(s))),
			units.length(s.Length), units.lengthName, "", "", "",
		})
	}
	return rows
}
