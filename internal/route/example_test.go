package route_test

import (
	"context"
	"fmt"

	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/unit"
)

func ExampleSolve() {
	s := sample.Sketch("OUT -10ft/4in/out- CO1(up) -80ft/grease- W1 -60ft- CAP1 ; W1 ~30ft/1.5in- F1", [2]float64{10, 5})
	plan, err := route.Solve(context.Background(), s, sample.Tables(), route.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, run := range plan.Runs() {
		fmt.Printf("run %d: %s from %s, counter at the end %s\n",
			run.Number, run.Direction, run.Access, unit.US.Footage(run.End))
	}
	for _, short := range plan.Shortfalls {
		fmt.Printf("%s: %s\n", short.Name, short.Why(unit.US))
	}
	fmt.Println("proven:", plan.Proven)
	// Output:
	// run 1: upstream from CO1, counter at the end 145 ft 0 in
	// pipe W1-F1: the hose is too large for pipe W1-F1 (3/8 in hose from cleanout CO1)
	// proven: true
}
