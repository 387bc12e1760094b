package linestrip_test

import (
	"fmt"

	"linemap/internal/export/linestrip"
	"linemap/internal/unit"
)

func Example() {
	run := linestrip.Line{Lay: unit.Metres(2), End: unit.Metres(22), Far: true}
	scale := run.Scale(48.8)
	fmt.Printf("%.1f mm of paper a metre, the opening %.1f mm down\n", scale.PerMetre, scale.Y(run.Lay))
	// Output: 2.0 mm of paper a metre, the opening 6.4 mm down
}
