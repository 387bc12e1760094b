package label

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"linemap/internal/export/drawing"
)

// What is picked depends on what stands around, not on where on the paper that
// is: a drawing that is moved by any way keeps its labels where they are.
func TestQuickGoesWithTheDrawing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 25).Draw(t, "things")
		x := rapid.SliceOfN(rapid.Float64Range(20, 130), 2*n, 2*n).Draw(t, "places")
		wide := rapid.SliceOfN(rapid.Float64Range(3, 20), n, n).Draw(t, "widths")
		by := Point{X: rapid.Float64Range(0, 30).Draw(t, "right"), Y: rapid.Float64Range(0, 30).Draw(t, "down")}
		scene := func(by Point) ([]Item, []Wall) {
			var items []Item
			var walls []Wall
			for i := range n {
				at := Point{X: x[2*i], Y: x[2*i+1]}.Add(by)
				items = append(items, Item{Candidates: Around(at, 1.6, wide[i], 4, 10), Optional: true, Drop: 30})
				walls = append(walls,
					Wall{A: at, B: at, Half: 1.3, Touch: Taboo},
					Wall{A: at, B: at.Add(Point{X: 15, Y: 5}), Half: 0.5, Touch: 1.5, PerMM: 1.2})
			}
			return items, walls
		}
		paper := drawing.Box{W: 200, H: 200}
		items, walls := scene(Point{})
		want := Quick(items, walls, paper)
		items, walls = scene(by)
		assert.Equal(t, want, Quick(items, walls, paper))
	})
}
