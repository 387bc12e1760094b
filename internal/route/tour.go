package route

import "math/bits"

// tour knows what a day costs at the least that comes to a set of spots.
type tour struct {
	ends   ticks // set-up at the start and pack-up at the end
	hose   ticks // one more hose at a spot, or one more block of any kind
	spot   ticks // one more spot, its credit left out
	again  ticks // one more stay
	of     []int // by spot, its place among those that keys stand at
	number int
	least  []ticks // by set of spots and the last of them
	whole  []ticks // by set of spots
}

// mostTourSpots is for how many spots the tours are worked out.
const mostTourSpots = 12

// newTour works out the tours of the spots that keys stand at; there may be no
// more than mostTourSpots of them.
func newTour(p *problem) *tour {
	crew := &p.site.Rig.Crew
	t := &tour{of: make([]int, len(p.spots))}
	setUp, packUp := toTicks(minutes(crew.SetUp)), toTicks(minutes(crew.PackUp))
	t.ends = setUp + packUp
	// A spot left out of a day saves what goes with every move, but for the
	// rounding of two of them.
	t.spot = max(0, t.ends+toTicks(minutes(crew.Move))-2)
	change := toTicks(minutes(crew.HoseChange))
	t.hose = min(change, t.spot)
	t.again = t.spot
	for i := range t.of {
		t.of[i] = -1
		t.again = min(t.again, t.spot-p.creditAt(i))
	}
	var at []int
	for _, k := range p.keys {
		if t.of[k.spot] < 0 {
			t.of[k.spot] = len(at)
			at = append(at, k.spot)
		}
	}
	t.number = len(at)
	t.work(p, at)
	return t
}

// moves are the least costs to get from spot to spot, others on the way allowed.
func (p *problem) moves(spots []int) [][]ticks {
	d := make([][]ticks, len(spots))
	for i, from := range spots {
		d[i] = make([]ticks, len(spots))
		for j, to := range spots {
			if i != j {
				d[i][j] = p.moveCost(blockKey{spot: from}, blockKey{spot: to}) - p.creditAt(to)
			}
		}
	}
	for k := range d {
		for i := range d {
			for j := range d {
				d[i][j] = min(d[i][j], d[i][k]+d[k][j])
			}
		}
	}
	return d
}

// work fills in the tours by dynamic programming over sets (Held and Karp 1962).
func (t *tour) work(p *problem, spots []int) {
	n, d := t.number, p.moves(spots)
	t.least, t.whole = make([]ticks, n<<n), make([]ticks, 1<<n)
	for set := 1; set < 1<<n; set++ {
		t.whole[set] = unreachable
		for rest := set; rest > 0; rest &= rest - 1 {
			last := bits.TrailingZeros(uint(rest))
			best := unreachable
			before := set &^ (1 << last)
			if before == 0 {
				best = -p.creditAt(spots[last])
			}
			for others := before; others > 0; others &= others - 1 {
				from := bits.TrailingZeros(uint(others))
				best = min(best, t.least[before*n+from]+d[from][last])
			}
			t.least[set*n+last] = best
			t.whole[set] = min(t.whole[set], best)
		}
	}
}

// spotsOf are the spots of keys, as a bit mask of the tour's own.
func (t *tour) spotsOf(p *problem, keys uint64) (set int) {
	for ; keys > 0; keys &= keys - 1 {
		set |= 1 << t.of[p.keys[bits.TrailingZeros64(keys)].spot]
	}
	return set
}

// day is the least cost of a day that comes to a set of spots, but for one hose at
// each of them.
func (t *tour) day(spots int) ticks {
	return t.ends + t.whole[spots] - ticks(bits.OnesCount(uint(spots)))*t.hose
}

// more is the least cost of the moves of a day that comes to a set of spots in a
// number of stays.
func (t *tour) more(spots, stays int) ticks {
	return t.ends + t.whole[spots] + ticks(stays-bits.OnesCount(uint(spots)))*t.again
}
