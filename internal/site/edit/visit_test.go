package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func days(s *site.Site) []string {
	var all []string
	for _, v := range s.Visits {
		all = append(all, v.Date)
	}
	return all
}

func TestVisitsStandInTheOrderOfTheirDays(t *testing.T) {
	s, err := site.New(unit.US)
	require.NoError(t, err)
	h := edit.NewHistory(s)
	for _, date := range []string{"2026-03-17", "2025-09-02", "2026-01-05"} {
		e, err := edit.SetVisit(s, site.Visit{Date: date})
		require.NoError(t, err)
		h.Do(e)
	}
	assert.Equal(t, []string{"2025-09-02", "2026-01-05", "2026-03-17"}, days(s))

	e, err := edit.SetVisit(s, site.Visit{Date: "2026-01-05", Crew: "AB"})
	require.NoError(t, err)
	h.Do(e)
	assert.Equal(t, "AB", s.Visits[1].Crew, "one visit for each day")
	assert.Len(t, s.Visits, 3)
	e, err = edit.SetVisit(s, s.Visits[1])
	require.NoError(t, err)
	assert.True(t, e.Empty(), "nothing changed")

	e, err = edit.RemoveVisit(s, "2025-09-02")
	require.NoError(t, err)
	h.Do(e)
	assert.Equal(t, []string{"2026-01-05", "2026-03-17"}, days(s))
	for range 5 {
		h.Undo()
	}
	assert.Nil(t, s.Visits)

	_, err = edit.SetVisit(s, site.Visit{Date: "17.03.2026"})
	require.ErrorContains(t, err, `visit of "17.03.2026": date: found "17.03.2026", must be a text of the form: a date like 2026-03-17`)
	_, err = edit.RemoveVisit(s, "2026-03-17")
	require.ErrorContains(t, err, `there is no visit of "2026-03-17"`)
}

// TestSetVisitTakesACopy changes what was given after it was set.
func TestSetVisitTakesACopy(t *testing.T) {
	s, err := site.New(unit.US)
	require.NoError(t, err)
	run := site.RunResult{Run: site.RunKey{Spot: "a", Hose: "h", Access: "n", End: "p"}, Photos: []string{"a.jpg"}}
	v := site.Visit{Date: "2026-03-17", Runs: []site.RunResult{run}}
	e, err := edit.SetVisit(s, v)
	require.NoError(t, err)
	edit.NewHistory(s).Do(e)
	run.Photos[0] = "b.jpg"
	assert.Equal(t, "a.jpg", s.Visits[0].Runs[0].Photos[0])
}
