package audit

import (
	"linemap/internal/route"
	"linemap/internal/site"
)

// TestingT is the part of a test that [Require] needs.
type TestingT interface {
	Helper()
	Errorf(format string, args ...any)
}

// Require fails a test once for every problem of a plan, and reports whether
// there was none.
func Require(t TestingT, s *site.Site, tables *site.Tables, p *route.Plan) bool {
	t.Helper()
	problems := Check(s, tables, p)
	for _, problem := range problems {
		t.Errorf("%s", problem)
	}
	return len(problems) == 0
}
