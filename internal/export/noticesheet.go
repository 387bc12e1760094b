package export

import (
	"fmt"
	"strings"
	"time"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// noticeSheet is what stands on a notice, in reading order and in finished
// words.
type noticeSheet struct {
	Title, Where string
	Day          string // "" where the job has no date
	Hours        string
	Counted      string // what the times count from, "" for the clock
	Do           []fact // what to do, in order
	Call         string // "" where the job names nobody
	For          string
	Rooms        []noticeRow // by name
	Fixtures     []noticeRow // those in no room, by time
	Outside      []noticeRow
}

// noticeRow is a line of the notice: a place with its windows of time,
// by day.
type noticeRow struct {
	Place     string
	Open, Dry []dayTimes
}

// newNoticeSheet words a plan for the people in the building.
func newNoticeSheet(s *site.Site, t *site.Tables, p *route.Plan, opt Options) *noticeSheet {
	g, _ := network.Trace(&s.Network)
	w := &wording{sys: opt.For(s).Units, site: s, tables: t, graph: g}
	days := w.workDays(p)
	n := &noticeSheet{
		Title: title(s), Where: s.Job.Address, Day: longDay(w.sys, s.Job.Date), Hours: w.noticeHours(p, days),
		Call: list(s.Job.Contact, s.Job.Phone), For: s.Job.Customer, Counted: w.counted(days),
	}
	when := map[string]int{} // the rows of fixtures, by their times
	for _, pl := range housed(w.noticePlaces(p)) {
		row := noticeRow{pl.said(), w.sayWindows(pl.open, days), w.sayWindows(pl.dry, days)}
		switch {
		case pl.outdoors:
			n.Outside = append(n.Outside, row)
		case pl.fixture:
			if i, ok := when[spoken(row.Dry)]; ok {
				n.Fixtures[i].Place += "; " + row.Place
				continue
			}
			when[spoken(row.Dry)] = len(n.Fixtures)
			n.Fixtures = append(n.Fixtures, row)
		default:
			n.Rooms = append(n.Rooms, row)
		}
	}
	n.Do = w.toDo(p, n, days)
	return n
}

// longDay writes a date in full: "Tuesday, March 17, 2026" or "Tuesday 17 March
// 2026".
func longDay(sys unit.System, date string) string {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return date
	}
	if sys == unit.Metric {
		return t.Format("Monday 2 January 2006")
	}
	return t.Format("Monday, January 2, 2006")
}

// noticeHours says when the crew works.
func (w *wording) noticeHours(p *route.Plan, days int) string {
	all := window{0, p.Cost}.byDay(&w.site.Rig.Crew)
	first, last := all[0], all[len(all)-1]
	if days > 1 {
		return fmt.Sprintf("%d working days, %s; the last day to %s", days, w.fromTo(first), w.intoDay(last.to))
	}
	return w.fromTo(first)
}

// counted says what the times count from where the clock does not say it.
func (w *wording) counted(days int) string {
	var said []string
	if _, err := time.Parse("15:04", w.site.Job.Start); err != nil {
		said = append(said, "Times with a plus count from the arrival of the crew.")
	}
	if days > 1 {
		said = append(said, "Day 1 is the day above; the others are the working days that follow.")
	}
	return strings.Join(said, " ")
}

// toDo says what the people in the building are to do.
func (w *wording) toDo(p *route.Plan, n *noticeSheet, days int) []fact {
	if len(p.Blocks) == 0 {
		return []fact{{"Nothing to do", "By the plan no drain is cleaned."}}
	}
	jets := w.allJets(p)
	dry := fmt.Sprintf("No taps, toilets, showers or machines: %s.", spoken(w.sayWindows(jets, days)))
	if len(n.Rooms)+len(n.Fixtures) > 0 {
		dry += " Where the list below has other times for a place, those hold there."
	}
	do := []fact{{"No water down the drains", dry}}
	if hasOpen(n.Rooms) {
		do = append(do, fact{"Let the crew in", "Rooms with a time under “Must be open” are to be unlocked then, or someone there to open. " +
			"Clear the floor around the drain opening."})
	}
	do = append(do, fact{"Do not park here", w.parking(p, days)})
	return append(
		append(do, w.areasToDo(p, days)...),
		fact{"Keep clear of the hoses", "Hoses under high pressure run from the trailer to the openings. Leave their way free, step over them, " +
			"do not drive over or move them. Keep children and animals away."},
		fact{"Noise and smell", "The pump is loud; drains may gurgle and smell for a while. Beforehand, close toilet lids and " +
			"pour a cup of water into floor drains and seldom used sinks."},
		fact{"Afterwards", "Run cold water for a minute. If it rises or stands, stop and call."},
	)
}

func hasOpen(rows []noticeRow) bool {
	for _, r := range rows {
		if len(r.Open) > 0 {
			return true
		}
	}
	return false
}

// allJets is the time from the first jet of each stretch of jetting to its last.
func (w *wording) allJets(p *route.Plan) []window {
	var all []window
	for _, e := range p.Day {
		if e.Kind == route.EventJet {
			all = append(all, window{e.Start, e.Start + e.Takes})
		}
	}
	if len(all) == 0 {
		return nil
	}
	return []window{{all[0].from, all[len(all)-1].to}}
}

// parking lists where the trailer stands, and when.
func (w *wording) parking(p *route.Plan, days int) string {
	order, at := spotWindows(p)
	said := make([]string, len(order))
	for i, id := range order {
		said[i] = w.spotName(id) + ": " + spoken(w.sayWindows(join(at[id]), days))
	}
	return sentences(append(said, "The trailer and its truck stand there")...)
}
