package audit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/route/audit"
)

func TestTheYardPlanKeepsTheRules(t *testing.T) {
	audit.Require(t, yard(), yardTables(), yardPlan())
}

func TestNothingToCheck(t *testing.T) {
	for _, problems := range [][]audit.Problem{
		audit.Check(nil, yardTables(), yardPlan()),
		audit.Check(yard(), nil, yardPlan()),
		audit.Check(yard(), yardTables(), nil),
	} {
		require.Len(t, problems, 1)
		assert.Equal(t, audit.RulePlan, problems[0].Rule)
	}
}
