package replay_test

import (
	"context"
	"fmt"
	"log"
	"time"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/replay"
	"linemap/internal/route/sample"
	"linemap/internal/unit"
)

func Example() {
	s := sample.Sketch("OUT -20ft/4in/out- MH1 -60ft/grease- CO1 -60ft- CAP1", [2]float64{10, 20})
	tables := sample.Tables()
	plan, err := route.Solve(context.Background(), s, tables, route.Options{})
	if err != nil {
		log.Fatal(err)
	}
	g, _ := network.Trace(&s.Network)
	day := replay.New(s, tables, g, plan)
	for at := 15 * time.Minute; at <= day.Ends(); at += 10 * time.Minute {
		m := day.At(at)
		fmt.Printf("%.0f min: %s, %s, %s\n",
			at.Minutes(), m.Words, unit.US.Footage(m.Reading), unit.US.Volume(m.Tank))
	}
	// Output:
	// 15 min: laying hose to manhole MH1 and opening it for run 1, 0 ft 0 in, 300 gal
	// 25 min: jetting run 1, clean pass: working out in strokes, 52 ft 5 in, 296 gal
	// 35 min: jetting run 1, clean pass: pulling back, 78 ft 5 in, 276 gal
	// 45 min: jetting run 1, finish pass: pulling back, 100 ft 1 in, 292 gal
	// 55 min: packing up at Spot 1, 0 ft 0 in, 0 gal
}
