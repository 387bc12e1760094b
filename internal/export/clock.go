package export

import (
	"fmt"
	"time"

	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// day writes a date of the document, 2026-03-17, as people write it: "Tue, Mar
// 17, 2026" or "Tue 17 Mar 2026". What is no date stays as it is.
func day(sys unit.System, date string) string {
	t, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return date
	}
	if sys == unit.Metric {
		return t.Format("Mon 2 Jan 2006")
	}
	return t.Format("Mon, Jan 2, 2006")
}

// Clock writes the time of day at which something begins on a site that begins
// after so much work, as the papers do.
func Clock(s *site.Site, worked time.Duration) string {
	return clock(s.Units, s.Job.Start, &s.Rig.Crew, worked)
}

// clock writes the time of day at which something begins that begins after so
// much work: "10:05 am" or "10:05"; on a later working day, or past midnight,
// "8:14 am, day 2". Where the start is no time of day it counts from zero:
// "+2 h 05 min".
func clock(sys unit.System, start string, crew *rig.Crew, worked time.Duration) string {
	t, err := time.Parse("15:04", start)
	if err != nil {
		return "+" + unit.Minutes(worked)
	}
	form := "3:04 pm"
	if sys == unit.Metric {
		form = "15:04"
	}
	day, into := crew.Day(worked)
	at := t.Add(into.Round(time.Minute))
	said := at.Format(form)
	if day += int(at.Sub(t.Truncate(24*time.Hour)) / (24 * time.Hour)); day > 0 {
		said += fmt.Sprintf(", day %d", day+1)
	}
	return said
}

// days says how many working days a plan takes, "" for one.
func days(crew *rig.Crew, cost time.Duration) string {
	last, into := crew.Day(cost)
	if into == 0 {
		last--
	}
	if last < 1 {
		return ""
	}
	return fmt.Sprintf("%d working days of %s. Stopping for the night adds a pack-up and a set-up that the plan does not count.",
		last+1, unit.Minutes(time.Duration(crew.Shift*float64(time.Minute))))
}

// Spent writes a time that something takes, as the papers do.
func Spent(d time.Duration) string { return spent(d) }

// spent writes a time that something takes; what is done at once is not
// nothing.
func spent(d time.Duration) string {
	if d > 0 && d < 30*time.Second {
		return "<1 min"
	}
	return unit.Minutes(d)
}

// counted writes a number with its noun: "1 run", "3 runs".
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
