package label

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"linemap/internal/export/drawing"
)

// The places of an item come in the order of what they cost with all that they
// cover, though few of them are priced ahead: checked against every wall, without
// a grid.
func TestQueueIsInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		paper := drawing.Box{W: 120, H: 80}
		at := func() Point {
			return Point{X: rapid.Float64Range(-10, 130).Draw(t, "x"), Y: rapid.Float64Range(-10, 90).Draw(t, "y")}
		}
		var walls []Wall
		for range rapid.IntRange(0, 20).Draw(t, "walls") {
			w := Wall{A: at(), B: at(), Half: rapid.Float64Range(0.1, 3).Draw(t, "half"), Touch: 1.5, PerMM: 1.2}
			if rapid.Bool().Draw(t, "mark") {
				w.B, w.Touch = w.A, Taboo
			}
			walls = append(walls, w)
		}
		it := Item{Candidates: Around(at(), 1, rapid.Float64Range(2, 25).Draw(t, "wide"), 3, 30)}
		q, around := newQueue(&it, paper), newGround(walls, paper)
		last, seen := math.Inf(-1), map[int]bool{}
		for n := range it.Candidates {
			p := q.nth(n, around)
			assert.GreaterOrEqual(t, p.cost, last)
			last = p.cost
			assert.False(t, seen[p.index], "once")
			seen[p.index] = true

			want := it.Candidates[p.index].Cost
			if !it.Candidates[p.index].Box.inside(paper) {
				want += Taboo
			}
			for i := range walls {
				want += p.over(&walls[i])
				if p.leads() {
					want += p.leaderOver(&walls[i])
				}
			}
			assert.InDelta(t, want, p.cost, 1e-6)
		}
		assert.Nil(t, q.nth(len(it.Candidates), around))
	})
}
