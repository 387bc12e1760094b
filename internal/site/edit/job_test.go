package edit_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestRunsByHand(t *testing.T) {
	s := yard(t)
	a := s.ByHand.Keep[0]
	b, c := a, a
	b.End, c.End, c.Downstream = "p4", "p1", true
	key := func(f func(*site.Site, site.RunKey) (*edit.Edit, error), k site.RunKey) func(*site.Site) (*edit.Edit, error) {
		return func(s *site.Site) (*edit.Edit, error) { return f(s, k) }
	}
	do(t, s, key(edit.KeepRun, b))
	assert.Equal(t, []site.RunKey{a, b}, s.ByHand.Keep)
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.OrderRuns(s, []site.RunKey{b, a, b, c}) })
	assert.Equal(t, []site.RunKey{b, a, c}, s.ByHand.Order)
	do(t, s, key(edit.BarRun, a))
	assert.Equal(t, site.ByHand{Keep: []site.RunKey{b}, Bar: []site.RunKey{a}, Order: []site.RunKey{b, c}}, s.ByHand)
	do(t, s, key(edit.KeepRun, a))
	assert.Equal(t, site.ByHand{Keep: []site.RunKey{b, a}, Order: []site.RunKey{b, c}}, s.ByHand)
	do(t, s, key(edit.FreeRun, b))
	do(t, s, key(edit.FreeRun, a))
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.ClearOrder(s) })
	assert.True(t, s.ByHand.IsZero())
	assert.NotContains(t, encode(t, s), "by_hand")
	do(t, s, key(edit.BarRun, c))
	do(t, s, key(edit.KeepRun, b))
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.KeepRuns(s, []site.RunKey{a}) })
	assert.Equal(t, site.ByHand{Keep: []site.RunKey{a}, Bar: []site.RunKey{c}}, s.ByHand)
	do(t, s, edit.FreeRuns)
	assert.True(t, s.ByHand.IsZero())
	for _, change := range []func(*site.Site) (*edit.Edit, error){edit.ClearOrder, key(edit.FreeRun, a)} {
		e, err := change(s)
		require.NoError(t, err)
		assert.True(t, e.Empty())
	}
	a.Hose = ""
	refuse(t, s, `hose: found ""`, key(edit.KeepRun, a))
}

func TestSetTheRest(t *testing.T) {
	s := yard(t)
	other, err := site.DefaultRig("us")
	require.NoError(t, err)
	do(t, s, func(s *site.Site) (*edit.Edit, error) {
		return edit.SetJob(s, site.Job{Title: "Bakery", Date: "2028-02-29"})
	})
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.SetRig(s, *other) })
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.SetUnits(s, unit.US) })
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.SetPaper(s, site.Letter) })
	do(t, s, func(s *site.Site) (*edit.Edit, error) { return edit.SetCode(s, strings.Repeat("ü", 64)) })
	assert.Equal(t, "Bakery", s.Job.Title)
	assert.Equal(t, other.Name, s.Rig.Name)
	other.Hoses[0].Name = "mine"
	assert.NotEqual(t, "mine", s.Rig.Hoses[0].Name, "the site has its own copy")
	for _, change := range []func(*site.Site) (*edit.Edit, error){
		func(s *site.Site) (*edit.Edit, error) { return edit.SetJob(s, s.Job) },
		func(s *site.Site) (*edit.Edit, error) { return edit.SetRig(s, s.Rig.Clone()) },
		func(s *site.Site) (*edit.Edit, error) { return edit.SetUnits(s, s.Units) },
		func(s *site.Site) (*edit.Edit, error) { return edit.SetPaper(s, s.Paper) },
		func(s *site.Site) (*edit.Edit, error) { return edit.SetCode(s, s.Code) },
	} {
		e, err := change(s)
		require.NoError(t, err)
		assert.True(t, e.Empty())
	}
}

func TestSetTheRestRefuses(t *testing.T) {
	for _, c := range []struct {
		name, message string
		change        func(s *site.Site) (*edit.Edit, error)
	}{
		{"no day", `job: date: found "2026-02-29"`, func(s *site.Site) (*edit.Edit, error) { return edit.SetJob(s, site.Job{Date: "2026-02-29"}) }},
		{"no time", `job: start: found "25:00"`, func(s *site.Site) (*edit.Edit, error) { return edit.SetJob(s, site.Job{Start: "25:00"}) }},
		{"an empty rig", "rig: ", func(s *site.Site) (*edit.Edit, error) { return edit.SetRig(s, rig.Rig{}) }},
		{"two hoses of one ID", "a second time", func(s *site.Site) (*edit.Edit, error) {
			r := s.Rig.Clone()
			r.Hoses = append(r.Hoses, r.Hoses[0])
			return edit.SetRig(s, r)
		}},
		{"units", `units "furlongs"`, func(s *site.Site) (*edit.Edit, error) { return edit.SetUnits(s, "furlongs") }},
		{"paper", `paper "a0"`, func(s *site.Site) (*edit.Edit, error) { return edit.SetPaper(s, "a0") }},
		{"code", "at most 64 characters", func(s *site.Site) (*edit.Edit, error) { return edit.SetCode(s, strings.Repeat("ü", 65)) }},
		{"code of no text", "at most 64 characters", func(s *site.Site) (*edit.Edit, error) { return edit.SetCode(s, "\xff") }},
	} {
		t.Run(c.name, func(t *testing.T) { refuse(t, yard(t), c.message, c.change) })
	}
}
