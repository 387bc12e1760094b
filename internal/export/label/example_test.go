package label_test

import (
	"fmt"

	"linemap/internal/export/drawing"
	"linemap/internal/export/label"
)

// Two openings stand close together; each label finds a side of its own.
func Example() {
	page := drawing.Box{W: 100, H: 50}
	var items []label.Item
	var walls []label.Wall
	for _, at := range []label.Point{{X: 48, Y: 25}, {X: 54, Y: 25}} {
		items = append(items, label.Item{Candidates: label.Around(at, 1.3, 12, 3, 40)})
		walls = append(walls, label.Wall{A: at, B: at, Half: 1.3, Touch: label.Taboo})
	}
	for i, k := range label.Place(items, walls, page) {
		b := items[i].Candidates[k].Box
		fmt.Printf("label %d: centre %.1f, %.1f\n", i+1, b.Centre.X, b.Centre.Y)
	}
	// Output:
	// label 1: centre 40.0, 25.0
	// label 2: centre 62.0, 25.0
}
