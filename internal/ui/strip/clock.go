package strip

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"linemap/internal/export"
	"linemap/internal/site"
)

// tick is a time on the clock along the top.
type tick struct {
	at    time.Duration
	label string // empty where there is no room
	// first is the start of a working day.
	first bool
}

// steps are the distances of ticks, by which people count time.
var steps = []time.Duration{
	time.Minute, 2 * time.Minute, 5 * time.Minute, 10 * time.Minute, 15 * time.Minute, 30 * time.Minute,
	time.Hour, 2 * time.Hour, 3 * time.Hour, 6 * time.Hour, 12 * time.Hour, 24 * time.Hour,
}

// most bounds the days that are looked at, for a shift may be a second long.
const most = 400

// labelGap is kept free between two labels, in pixels.
const labelGap = 14

// ticks lists the times on the clock that a span shows: the start of every
// working day, and full times of the clock between, as close as the labels allow.
// wide measures a label.
func ticks(s *site.Site, sp span, ends time.Duration, wide func(string) float64) []tick {
	perTick := func(step time.Duration) float64 { return float64(step) / float64(sp.shown) * sp.width }
	last, _, _ := strings.Cut(export.Clock(s, sp.to()), ",")
	room := max(wide(last), wide(export.Clock(s, 0))) + labelGap
	step := steps[len(steps)-1]
	for _, one := range steps {
		if perTick(one) >= room {
			step = one
			break
		}
	}
	shift := time.Duration(s.Rig.Crew.Shift * float64(time.Minute))
	if shift <= 0 {
		shift = max(ends, 1)
	}
	begins := startOf(s)
	c := clockRow{site: s, span: sp, ends: ends, wide: wide}
	from, to := sp.from/shift, min(sp.to()/shift, sp.from/shift+most)
	for day := from; day <= to; day++ {
		c.add(day*shift, true)
	}
	for day := from; day <= to; day++ {
		base := day * shift
		seen := begins + max(0, sp.from-base) // nothing before it shows
		for at := seen.Truncate(step) - begins; at < shift && base+at <= sp.to(); at += step {
			if at > 0 {
				c.add(base+at, false)
			}
		}
	}
	slices.SortFunc(c.ticks, func(a, b tick) int { return cmp.Compare(a.at, b.at) })
	return c.ticks
}

// clockRow is filled with ticks, those that matter most first.
type clockRow struct {
	site  *site.Site
	span  span
	ends  time.Duration
	wide  func(string) float64
	ticks []tick
}

// add adds a tick where its label has room; the start of a day has its tick in any
// case.
func (c *clockRow) add(at time.Duration, first bool) {
	if at < c.span.from || at > c.span.to() || at >= c.ends {
		return
	}
	t := tick{at: at, first: first, label: export.Clock(c.site, at)}
	if !first {
		t.label, _, _ = strings.Cut(t.label, ",")
	}
	from := c.span.x(at)
	to := from + c.wide(t.label) + labelGap
	free := to-labelGap/2 <= c.span.left+c.span.width
	for _, o := range c.ticks {
		if o.label != "" && c.span.x(o.at) < to && from < c.span.x(o.at)+c.wide(o.label)+labelGap {
			free = false
		}
	}
	if !free {
		t.label = ""
	}
	if free || first {
		c.ticks = append(c.ticks, t)
	}
}

// startOf is the time of day at which the job starts, 0 where it is not known.
func startOf(s *site.Site) time.Duration {
	t, err := time.Parse("15:04", s.Job.Start)
	if err != nil {
		return 0
	}
	return time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute
}
