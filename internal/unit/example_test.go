package unit_test

import (
	"fmt"

	"linemap/internal/unit"
)

// A quantity is converted once on the way in and once on the way out.
func Example() {
	hose := unit.Feet(400)
	fmt.Println(hose.Metres())
	for _, sys := range []unit.System{unit.US, unit.Metric} {
		fmt.Println(sys.Length(hose), sys.Pressure(unit.Psi(3800)), unit.Size(4).In(sys))
	}
	// Output:
	// 121.92
	// 400 ft 3800 psi 4 in
	// 121.9 m 262 bar DN 100
}
