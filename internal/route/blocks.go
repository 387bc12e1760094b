package route

// blockKey is one spot and one hose, by index.
type blockKey struct{ spot, hose int }

// unreachable stands for a cost that no plan has; sums of it stay exact.
const unreachable ticks = 1 << 40

// keptFirst is how many other targets are left out before a run kept by hand
// is, in a sequence that cannot have all.
const keptFirst = 1 << 8

// dayCost is what a sequence of blocks costs in itself: set-ups, moves, hose
// changes and the pack-ups.
func (m *model) dayCost(seq []blockKey) ticks {
	if len(seq) == 0 {
		return 0
	}
	crew := &m.site.Rig.Crew
	setUp, packUp := toTicks(minutes(crew.SetUp)), toTicks(minutes(crew.PackUp))
	cost := setUp + packUp
	for i := 1; i < len(seq); i++ {
		cost += m.moveCost(seq[i-1], seq[i])
	}
	return cost
}

// moveCost is what it costs to go on from one block to the next.
func (m *model) moveCost(from, to blockKey) ticks {
	crew := &m.site.Rig.Crew
	if from.spot == to.spot {
		return toTicks(minutes(crew.HoseChange))
	}
	return toTicks(minutes(crew.PackUp)) + toTicks(minutes(crew.SetUp)) +
		m.tow(m.spots[from.spot].spot.At, m.spots[to.spot].spot.At)
}
