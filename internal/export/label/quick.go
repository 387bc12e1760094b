package label

import "linemap/internal/export/drawing"

// Quick picks places for labels that have to be there at once: each item takes
// its first candidate without a leader that covers neither a label nor a wall
// that is taboo, in the order given; an item without such a place is dropped.
// Unlike [Place] it moves no label for the sake of a later one, so that what
// stands does not depend on what comes after it.
func Quick(items []Item, walls []Wall, paper drawing.Box) []int {
	taken := make([]Box, 0, len(items)+len(walls))
	for _, w := range walls {
		if w.Touch >= Taboo {
			b := span(w.A, w.B, w.Half)
			taken = append(taken, Box{Centre: Point{X: b.X + b.W/2, Y: b.Y + b.H/2}, HalfW: b.W / 2, HalfH: b.H / 2})
		}
	}
	g := newGrid(paper, len(items)+len(taken))
	for i, b := range taken {
		g.add(i, b.Bounds())
	}
	picked := make([]int, len(items))
	for i := range items {
		picked[i] = Dropped
		for k, c := range items[i].Candidates {
			if len(c.Leader) > 0 {
				break // they come last
			}
			free := true
			g.near(c.Box.Bounds(), func(o int) bool {
				free = !c.Box.Overlaps(taken[o])
				return free
			})
			if free {
				g.add(len(taken), c.Box.Bounds())
				taken = append(taken, c.Box)
				picked[i] = k
				break
			}
		}
	}
	return picked
}
