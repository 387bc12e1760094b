package export

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"linemap/internal/rig"
	"linemap/internal/route"
)

// window is a stretch of a plan's work, from its first minute to its last,
// counted as the plan counts: without the nights between working days.
type window struct{ from, to time.Duration }

// near is how short a pause between two windows is that nobody is told of:
// people do not follow windows that open and close by the quarter hour (common
// practice).
const near = time.Hour

// join sorts windows and makes one of those that meet, overlap or part for less
// than near.
func join(ws []window) []window {
	ws = slices.Clone(ws)
	slices.SortFunc(ws, func(a, b window) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	var out []window
	for _, w := range ws {
		if n := len(out); n > 0 && w.from-out[n-1].to < near {
			out[n-1].to = max(out[n-1].to, w.to)
			continue
		}
		out = append(out, w)
	}
	return out
}

// dayWindow is a window within one working day, from 0; the times count from the
// start of that day.
type dayWindow struct {
	day      int
	from, to time.Duration
}

// byDay parts a window at the ends of the working days.
func (w window) byDay(crew *rig.Crew) []dayWindow {
	shift := time.Duration(crew.Shift * float64(time.Minute))
	var out []dayWindow
	for at := w.from; ; {
		day, into := crew.Day(at)
		if shift <= 0 || into+w.to-at <= shift {
			return append(out, dayWindow{day, into, into + w.to - at})
		}
		out = append(out, dayWindow{day, into, shift})
		at += shift - into
	}
}

// dayTimes are the windows of one working day in words: "8:06 to 9:40 am".
// Day is "day 2" where the plan has several days, else "".
type dayTimes struct {
	Day   string
	Times []string
}

// sayWindows writes windows, by day. They are the plan's times to the minute, as
// on the run sheet.
func (w *wording) sayWindows(ws []window, days int) []dayTimes {
	var out []dayTimes
	last := -1
	for _, win := range ws {
		for _, d := range win.byDay(&w.site.Rig.Crew) {
			if d.day != last {
				last = d.day
				out = append(out, dayTimes{})
				if days > 1 {
					out[len(out)-1].Day = "day " + strconv.Itoa(d.day+1)
				}
			}
			at := &out[len(out)-1]
			at.Times = append(at.Times, w.fromTo(d))
		}
	}
	return out
}

// fromTo writes a window of one day; morning or afternoon is said once where it is
// the same: "8:06 to 9:40 am".
func (w *wording) fromTo(d dayWindow) string {
	from, to := w.intoDay(d.from), w.intoDay(d.to)
	if from == to {
		return "at " + from
	}
	for _, half := range []string{" am", " pm"} {
		if strings.HasSuffix(to, half) {
			from = strings.TrimSuffix(from, half)
		}
	}
	return from + " to " + to
}

// String writes the times in one line: "day 2, 8:06 to 9:40 am and 1:05 to
// 1:28 pm".
func (d dayTimes) String() string {
	return list(d.Day, strings.Join(d.Times, " and "))
}

// spoken writes days in one line.
func spoken(days []dayTimes) string {
	said := make([]string, len(days))
	for i, d := range days {
		said[i] = d.String()
	}
	return strings.Join(said, "; ")
}

// intoDay writes the time of day after so much of a working day.
func (w *wording) intoDay(d time.Duration) string {
	return clock(w.sys, w.site.Job.Start, &rig.Crew{}, d)
}

// workDays is how many working days a plan takes, at least one.
func (w *wording) workDays(p *route.Plan) int {
	all := window{0, p.Cost}.byDay(&w.site.Rig.Crew)
	return all[len(all)-1].day + 1
}

// runWindows are, by run number, the time from the first of a run's events to
// its last, and from its first jet to its last.
func runWindows(p *route.Plan) (whole, jets map[int]window) {
	whole, jets = map[int]window{}, map[int]window{}
	grow := func(in map[int]window, e *route.Event) {
		w, ok := in[e.Run]
		if !ok {
			w.from = e.Start
		}
		w.to = e.Start + e.Takes
		in[e.Run] = w
	}
	for i := range p.Day {
		e := &p.Day[i]
		if e.Run <= 0 {
			continue
		}
		grow(whole, e)
		if e.Kind == route.EventJet {
			grow(jets, e)
		}
	}
	return whole, jets
}

// byName compares names as people sort them: digits by their number.
func byName(a, b string) int {
	for a != "" && b != "" {
		na, nb := digits(a), digits(b)
		if na == "" || nb == "" {
			if a[0] != b[0] {
				return cmp.Compare(a[0], b[0])
			}
			a, b = a[1:], b[1:]
			continue
		}
		va, vb := strings.TrimLeft(na, "0"), strings.TrimLeft(nb, "0")
		if c := cmp.Or(cmp.Compare(len(va), len(vb)), cmp.Compare(va, vb)); c != 0 {
			return c
		}
		a, b = a[len(na):], b[len(nb):]
	}
	return cmp.Compare(len(a), len(b))
}

// digits are the digits at the start of s.
func digits(s string) string {
	return s[:len(s)-len(strings.TrimLeft(s, "0123456789"))]
}
