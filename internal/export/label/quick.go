package label

import "linemap/internal/export/drawing"

// Quick picks places for labels that have to be there at once. Each item in turn
// takes its cheapest candidate that covers no label before it, or is dropped: an
// optional one as in [Place], any other where nothing else is left than what is
// taboo. Unlike Place it moves no label for the sake of a later one, so that what
// stands does not depend on what comes after it.
func Quick(items []Item, walls []Wall, paper drawing.Box) []int {
	fixed := newGrid(paper, len(walls))
	for i, w := range walls {
		fixed.add(i, w.reach())
	}
	taken := newGrid(paper, len(items))
	stands := make([]place, len(items))
	picked := make([]int, len(items))
	for i := range items {
		picked[i] = Dropped
		least := Taboo
		if items[i].Optional {
			least = min(least, items[i].Drop)
		}
		for k, c := range items[i].Candidates {
			if c.Cost >= least {
				continue
			}
			p := place{Candidate: c, bounds: c.Box.Bounds()}
			if len(c.Leader) == 2 {
				p.bounds = union(p.bounds, span(c.Leader[0], c.Leader[1], 0))
			}
			free := true
			taken.near(p.bounds, func(o int) bool {
				free = clash(&p, &stands[o]) == 0
				return free
			})
			if !free {
				continue
			}
			fixed.near(p.bounds, func(j int) bool {
				p.Cost += p.against(walls[j])
				return p.Cost < least
			})
			if p.Cost < least {
				picked[i], least, stands[i] = k, p.Cost, p
			}
		}
		if picked[i] != Dropped {
			taken.add(i, stands[i].bounds)
		}
	}
	return picked
}

// reach returns the upright box outside of which a wall costs nothing.
func (w *Wall) reach() drawing.Box {
	half := w.Half
	if w.Touch >= Taboo {
		half += besideMark
	}
	return span(w.A, w.B, half)
}
