package label

import "linemap/internal/export/drawing"

// tie is less than any difference in price that is meant.
const tie = 1e-6

// Quick picks places for labels that have to be there at once. Each item in turn
// takes its cheapest candidate that covers no label before it, or is dropped: an
// optional one as in [Place], any other where nothing else is left than what is
// taboo. Unlike Place it moves no label for the sake of a later one, so that what
// stands does not depend on what comes after it. Of candidates that cost as much, but
// for what rounding makes of where the paper begins, it takes the first.
func Quick(items []Item, walls []Wall, paper drawing.Box) []int {
	around := newGround(walls, paper)
	taken := newGrid(paper, len(items))
	stands := make([]place, len(items))
	picked := make([]int, len(items))
	for i := range items {
		picked[i] = Dropped
		least := Taboo
		if items[i].Optional {
			least = min(least, items[i].Drop)
		}
		for k := range items[i].Candidates {
			if items[i].Candidates[k].Cost >= least {
				continue
			}
			p := newPlace(&items[i].Candidates[k], k)
			free := true
			taken.near(p.bounds, func(o int) bool {
				free = clash(&p, &stands[o]) == 0
				return free
			})
			if !free {
				continue
			}
			if around.price(&p, least); p.cost < least-tie {
				picked[i], least, stands[i] = k, p.cost, p
			}
		}
		if picked[i] != Dropped {
			taken.add(i, stands[i].bounds)
		}
	}
	return picked
}
