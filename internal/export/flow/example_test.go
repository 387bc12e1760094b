package flow_test

import (
	"fmt"

	"linemap/internal/export/flow"
)

func Example() {
	words := func(s string, height float64) flow.Piece {
		return flow.Piece{Height: height, Draw: func(_, y float64) { fmt.Printf("  %3.0f %s\n", y, s) }}
	}
	pages := flow.New(100)
	pages.Add(flow.Group{Pieces: []flow.Piece{words("first run", 70)}})
	pages.Hold(words("heading", 10))
	pages.Add(flow.Group{Pieces: []flow.Piece{words("second run", 50)}})
	for i, page := range pages.Pages() {
		fmt.Println("page", i+1)
		for _, p := range page {
			p.Draw(0, p.Y)
		}
	}
	// Output:
	// page 1
	//     0 first run
	// page 2
	//     0 heading
	//    10 second run
}
