package audit_test

import (
	"fmt"

	"linemap/internal/route/audit"
)

// A plan that forgets an hour of the day, and what the checker says to it.
func ExampleCheck() {
	plan := yardPlan()
	plan.Cost -= 60 * mins(1)
	for _, p := range audit.Check(yard(), yardTables(), plan) {
		fmt.Println(p)
	}
	// Output: cost: plan: the cost is the sum of the day (got 2h35m52.8s, want 3h35m52.8s)
}
