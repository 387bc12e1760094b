package aim_test

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/site"
	"linemap/internal/ui/aim"
	"linemap/internal/unit"
)

func Example() {
	s := &site.Site{Network: *sketch.Must("OUT -12m/4in- CO(label=CO-1)")}
	g, _ := network.Trace(&s.Network)
	x := aim.NewIndex(s, g)

	at := network.Point{X: unit.Metres(4.1), Y: unit.Metres(0.2)}
	hit, _ := x.At(at, "", unit.Metres(0.5), nil)
	fmt.Println(hit.Ref.Kind, hit.Ref.ID, unit.Metric.Footage(hit.Along), "along")

	from := network.Point{X: unit.Metres(4), Y: unit.Metres(6)}
	fmt.Println(x.Snap(aim.Sight{At: at, Within: unit.Metres(0.5), From: &from}).Snapped)
	// Output:
	// pipe OUT-CO 4.10 m along
	// pipe OUT-CO, square to it
}
