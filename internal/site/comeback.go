package site

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"linemap/internal/network"
)

// ComeBack says by when a pipe should be cleaned again, and why then.
//
// The time between two cleanings is the usual one for the deposit (a figure of
// the tables) until the pipe's own history says better. Where the deposit is
// found heavy before that time is over, the next cleaning comes after two
// thirds of the time that it took to build up; where it is found light after
// that time or more, after one and a half times as long. Both stay within the
// tables' bounds for the deposit. The thirds and halves are common practice.
type ComeBack struct {
	Pipe network.PipeID
	// Last is the day of the last cleaning, Date the one to come back by, Days
	// the time between them.
	Last, Date string
	Days       int
	// Deposit is what was found last; where nobody said, Noted is set and it is
	// what the drawing says.
	Deposit network.Deposit
	Noted   bool
	// Severity was found After days, and that moved the time. Both are empty
	// where the usual time stands.
	Severity network.Severity
	After    int
}

// The history's pull on the time to the next cleaning.
const (
	sooner = 2.0 / 3
	later  = 3.0 / 2
)

// cleaning is one visit of one pipe.
type cleaning struct {
	day      time.Time
	deposit  network.Deposit
	severity network.Severity
}

// ComeBack lists the pipes of the drawing that a visit cleaned, in whole or in
// part, the one to be cleaned again first in front. No visit, no pipe.
func (s *Site) ComeBack(t *Tables) []ComeBack {
	history := s.cleanings()
	var all []ComeBack
	for i := range s.Network.Pipes {
		p := &s.Network.Pipes[i]
		if done := history[p.ID]; len(done) > 0 {
			all = append(all, comeBack(p, done, t))
		}
	}
	slices.SortStableFunc(all, func(a, b ComeBack) int {
		return cmp.Or(len(a.Date)-len(b.Date), strings.Compare(a.Date, b.Date)) // a date may lie beyond the year 9999
	})
	return all
}

// cleanings lists the visits of each pipe in order. What several runs of one
// day found in a pipe counts once, as the worst of it.
func (s *Site) cleanings() map[network.PipeID][]cleaning {
	history := map[network.PipeID][]cleaning{}
	for i := range s.Visits {
		day, err := time.Parse(time.DateOnly, s.Visits[i].Date)
		if err != nil {
			continue // such a visit is not loaded
		}
		for k := range s.Visits[i].Runs {
			r := &s.Visits[i].Runs[k]
			for _, p := range r.Pipes {
				if p.Cleaned <= 0 {
					continue
				}
				done := history[p.Pipe]
				if n := len(done); n == 0 || !done[n-1].day.Equal(day) {
					done = append(done, cleaning{day: day})
				}
				done[len(done)-1].take(r)
				history[p.Pipe] = done
			}
		}
	}
	return history
}

func (c *cleaning) take(r *RunResult) {
	severity := cmp.Or(r.Severity, network.Moderate)
	if r.Deposit == "" || c.deposit != "" && slices.Index(Severities(), severity) <= slices.Index(Severities(), c.severity) {
		return
	}
	c.deposit, c.severity = r.Deposit, severity
}

// comeBack judges the history of one pipe.
func comeBack(p *network.Pipe, done []cleaning, t *Tables) ComeBack {
	last := done[len(done)-1]
	b := ComeBack{Pipe: p.ID, Last: last.day.Format(time.DateOnly), Deposit: last.deposit}
	if b.Deposit == "" {
		b.Deposit, b.Noted = cmp.Or(p.Deposit, network.NoDeposit), true
	}
	row := t.Deposits[b.Deposit].ComeBack
	b.Days = days(row.Usual)
	for i := 1; i < len(done); i++ {
		if done[i].deposit != b.Deposit {
			continue
		}
		after := int(math.Round(done[i].day.Sub(done[i-1].day).Hours() / 24))
		switch severity := done[i].severity; {
		case severity == network.Heavy && after <= b.Days:
			b.Days = max(days(row.Least), round(float64(after)*sooner))
		case severity == network.Light && after >= b.Days:
			b.Days = min(days(row.Most), round(float64(after)*later))
		default:
			continue
		}
		b.Severity, b.After = done[i].severity, after
	}
	b.Date = last.day.AddDate(0, 0, b.Days).Format(time.DateOnly)
	return b
}

// days is how many days some months are.
func days(months int) int { return round(float64(months) * 365.25 / 12) }

func round(v float64) int { return int(math.Round(v)) }

// Why says in one sentence why a pipe is to be cleaned again when it is.
func (b *ComeBack) Why(t *Tables) string {
	row := t.Deposits[b.Deposit]
	usual := fmt.Sprintf("%d months are usual", row.ComeBack.Usual)
	if row.ComeBack.Usual == 1 {
		usual = "a month is usual"
	}
	switch {
	case b.Severity == network.Heavy:
		return fmt.Sprintf("%s found heavy %d days after the cleaning before, where %s.", row.Name, b.After, usual)
	case b.Severity == network.Light:
		return fmt.Sprintf("%s found light %d days after the cleaning before, where %s.", row.Name, b.After, usual)
	case b.Noted && b.Deposit == network.NoDeposit:
		return fmt.Sprintf("No deposit was written down; %s.", usual)
	case b.Noted:
		return fmt.Sprintf("%s by the drawing: %s.", row.Name, usual)
	case b.Deposit == network.NoDeposit:
		return fmt.Sprintf("Found clean: %s.", usual)
	}
	return fmt.Sprintf("%s found: %s.", row.Name, usual)
}
