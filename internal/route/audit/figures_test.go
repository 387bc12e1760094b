package audit

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/route"
	"linemap/internal/unit"
)

// Thrust must beat drag, so a pull may be short by nothing; a hose that is
// over the reel is over by something.
func TestFigureOfAReason(t *testing.T) {
	for name, c := range map[string]struct {
		told route.Shortfall
		fair bool
	}{
		"pull short":             {route.Shortfall{Reason: route.PullShort, ByForce: 3}, true},
		"pull short by nothing":  {route.Shortfall{Reason: route.PullShort}, true},
		"pull short by less":     {route.Shortfall{Reason: route.PullShort, ByForce: -3}, false},
		"over reel by nothing":   {route.Shortfall{Reason: route.OverReel}, false},
		"figure of another rule": {route.Shortfall{Reason: route.OverReel, ByLength: unit.Metres(1), ByForce: 3}, false},
	} {
		t.Run(name, func(t *testing.T) {
			check := &checker{report: &report{}}
			check.figures(&c.told, "shortfall")
			assert.Equal(t, c.fair, len(check.problems) == 0, "%v", check.problems)
		})
	}
}
