package site

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
)

// visitsOf makes visits that each clean pipe p2 and find something.
func visitsOf(found ...cleaning) []Visit {
	var all []Visit
	for _, c := range found {
		all = append(all, Visit{Date: c.day.Format(time.DateOnly), Runs: []RunResult{{
			Deposit: c.deposit, Severity: c.severity, Pipes: []PipeResult{{Pipe: "p2", Length: 10, Cleaned: 1}},
		}}})
	}
	return all
}

func on(date string, d network.Deposit, s network.Severity) cleaning {
	day, err := time.Parse(time.DateOnly, date)
	if err != nil {
		panic(err)
	}
	return cleaning{day, d, s}
}

// TestComeBack works through histories by hand. Grease is usually cleaned every
// 4 months, which are 122 days, and at the earliest after 1 month (30 days), at
// the latest after 12 (365 days).
func TestComeBack(t *testing.T) {
	grease, light, heavy := network.Grease, network.Light, network.Heavy
	for _, c := range []struct {
		name   string
		visits []Visit
		date   string
		why    string
	}{
		{
			"first visit", visitsOf(on("2026-01-05", grease, heavy)),
			"2026-05-07", "Grease found: 4 months are usual.", // 5 January + 122 days
		},
		{
			"heavy again too soon", visitsOf(on("2026-06-01", grease, ""), on("2026-09-03", grease, heavy)),
			"2026-11-05", "Grease found heavy 94 days after the cleaning before, where 4 months are usual.", // two thirds of 94 are 63
		},
		{
			"heavy at once", visitsOf(on("2026-06-01", grease, ""), on("2026-06-11", grease, heavy)),
			"2026-07-11", "Grease found heavy 10 days after the cleaning before, where 4 months are usual.", // never before 30 days
		},
		{
			"heavy after a long time", visitsOf(on("2025-01-01", grease, ""), on("2026-01-01", grease, heavy)),
			"2026-05-03", "Grease found: 4 months are usual.",
		},
		{
			"light after the usual time", visitsOf(on("2026-01-01", grease, ""), on("2026-05-31", grease, light)),
			"2027-01-11", "Grease found light 150 days after the cleaning before, where 4 months are usual.", // 225 days
		},
		{
			"light after a year", visitsOf(on("2025-01-01", grease, ""), on("2026-01-01", grease, light)),
			"2027-01-01", "Grease found light 365 days after the cleaning before, where 4 months are usual.", // at most 365 days
		},
		{
			"light right away says nothing", visitsOf(on("2026-01-01", grease, ""), on("2026-01-20", grease, light)),
			"2026-05-22", "Grease found: 4 months are usual.",
		},
		{
			"what was learned stays", visitsOf(on("2026-01-01", grease, ""), on("2026-04-11", grease, heavy), on("2026-06-15", grease, "")),
			"2026-08-21", "Grease found heavy 100 days after the cleaning before, where 4 months are usual.", // 67 days again
		},
		{
			"another deposit is judged anew", visitsOf(on("2026-01-01", grease, ""), on("2026-02-01", grease, heavy), on("2026-03-01", network.Scale, light)),
			"2028-03-01", "Scale found: 24 months are usual.", // 731 days, over a leap year
		},
		{
			"found clean", visitsOf(on("2026-01-01", network.NoDeposit, "")),
			"2028-01-02", "Found clean: 24 months are usual.",
		},
		{
			"nobody said what was found", visitsOf(on("2026-01-01", "", "")),
			"2027-01-01", "Sediment by the drawing: 12 months are usual.",
		},
		{"no visit", nil, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := wholeSite(t)
			s.Network.Pipes[1].Deposit = network.Sediment
			s.Visits = c.visits
			all := s.ComeBack(tables(t))
			if c.date == "" {
				assert.Empty(t, all)
				return
			}
			require.Len(t, all, 1)
			assert.Equal(t, network.PipeID("p2"), all[0].Pipe)
			assert.Equal(t, c.date, all[0].Date)
			assert.Equal(t, c.why, all[0].Why(tables(t)))
			assert.Equal(t, c.visits[len(c.visits)-1].Date, all[0].Last)
		})
	}
}

// TestComeBackTakesTheWorstOfADay has two runs in one pipe on one day, and pipe
// that the run did not reach.
func TestComeBackTakesTheWorstOfADay(t *testing.T) {
	s := wholeSite(t)
	s.Visits = visitsOf(on("2026-01-01", network.Grease, ""), on("2026-03-02", network.Grease, network.Light))
	s.Visits[1].Runs = append(s.Visits[1].Runs, RunResult{
		Deposit: network.Grease, Severity: network.Heavy,
		Pipes: []PipeResult{{Pipe: "p2", Length: 9, Cleaned: 9}, {Pipe: "p3", Length: 9}, {Pipe: "gone", Length: 9, Cleaned: 9}},
	}, RunResult{Pipes: []PipeResult{{Pipe: "p2", Length: 9, Cleaned: 9}}})
	all := s.ComeBack(tables(t))
	require.Len(t, all, 1)
	assert.Equal(t, network.Heavy, all[0].Severity)
	assert.Equal(t, 40, all[0].Days, "two thirds of 60 days")
}

// TestComeBackStaysWithinBounds holds every history against the tables, and the
// list against its order.
func TestComeBackStaysWithinBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySite(t)
		loaded, err := LoadTables()
		require.NoError(t, err)
		last := ""
		for _, b := range s.ComeBack(loaded) {
			row := loaded.Deposits[b.Deposit].ComeBack
			assert.GreaterOrEqual(t, b.Days, days(row.Least))
			assert.LessOrEqual(t, b.Days, days(row.Most))
			assert.GreaterOrEqual(t, b.Date, last)
			assert.Greater(t, b.Date, b.Last)
			last = b.Date
		}
	})
}
