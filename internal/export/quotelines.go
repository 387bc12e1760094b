package export

import (
	"fmt"

	"linemap/internal/export/quote"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// quoteLines words the lines of the bill.
func (q *quoting) quoteLines() []quoteLine {
	lines := make([]quoteLine, len(q.bill.Lines))
	for i := range q.bill.Lines {
		l := &q.bill.Lines[i]
		what, source, per := q.lineWords(l)
		lines[i] = quoteLine{
			What: what, Source: source, Quantity: quote.Figure(l.Quantity, l.Quantity.Scale()), Unit: per,
			Rate: quote.Figure(l.Rate, q.prices.Places()), Amount: q.amount(l.Amount),
		}
	}
	return lines
}

// lineWords says what a line is for, where its quantity comes from, and what its
// rate is for.
func (q *quoting) lineWords(l *quote.Line) (what, source, per string) {
	w := &q.work
	length, volume := "ft", "1,000 gal"
	if q.prices.Units == unit.Metric {
		length, volume = "m", "m³"
	}
	switch l.Kind {
	case quote.CallOut:
		return "Call-out", "Once for the job", "job"
	case quote.CrewHours:
		return "Crew of " + people(q.site.Rig.Crew.People),
			fmt.Sprintf("Planned time of the whole crew: %s in %s", unit.Minutes(w.Hours), counted(w.Runs, "run")), "hour"
	case quote.NightWork:
		return fmt.Sprintf("Extra at night, %s of the crew hour", q.percent(q.prices.NightPercent)),
			fmt.Sprintf("Planned time from %s to %s", q.hour(q.prices.NightFrom), q.hour(q.prices.NightTo)), "hour"
	case quote.Pipe:
		return "Cleaning " + l.Size.In(q.sys) + " pipe", "Length that the planned runs clean", length
	case quote.RootRuns:
		return "Cutting roots", "Runs with a root cutter", "run"
	case quote.RootPipe:
		return "Extra for pipe with roots", "Length noted as rooted", length
	case quote.Water:
		return "Water", "What the jets use by the plan: " + q.sys.Volume(w.Water), volume
	case quote.Disposal:
		return "Disposal", "Once, for what comes out of the drains", "job"
	case quote.Minimum:
		return "Up to the minimum", "The least for a job is " + quote.Figure(q.prices.Minimum, q.prices.Places()), "job"
	}
	return string(l.Kind), "", ""
}

// hour writes a time of day of the document as the papers do.
func (q *quoting) hour(s string) string { return clock(q.sys, s, &q.site.Rig.Crew, 0) }

// rangeSource says where the range comes from.
const rangeSource = "The price above is for the plan, with deposits as noted. To see the range, the same runs were " +
	"worked out again with every deposit one step milder and one step worse (light, moderate, heavy; heavy gets no worse, light no milder), " +
	"with all that follows for passes, water and waiting."

// ranges prices the plan with milder and worse deposits: the low case, the
// likely one and the high.
func (q *quoting) ranges() ([]quoteRange, error) {
	likely := quoteRange{"Likely: deposits as noted", unit.Minutes(q.work.Hours), q.sys.Volume(q.work.Water), q.money(q.bill.Total)}
	low, err := q.shifted("Low: one step milder", route.Milder)
	if err != nil {
		return nil, err
	}
	high, err := q.shifted("High: one step worse", route.Worse)
	if err != nil {
		return nil, err
	}
	return []quoteRange{low, likely, high}, nil
}

func (q *quoting) shifted(name string, by route.Shift) (quoteRange, error) {
	p, err := q.plan.Shifted(q.site, q.tables, by)
	if err != nil {
		return quoteRange{}, err
	}
	work := quote.Measure(q.site, p)
	bill, err := quote.Price(&work, q.prices)
	if err != nil {
		return quoteRange{}, err
	}
	return quoteRange{name, unit.Minutes(work.Hours), q.sys.Volume(work.Water), q.money(bill.Total)}, nil
}
