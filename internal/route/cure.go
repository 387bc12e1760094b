package route

import "linemap/internal/unit"

// trialResult is what a new cleanout on a pipe would make reachable.
type trialResult struct {
	reach map[int]bool
	gains unit.Length
}

// cheapestCure tries the cures that can be tried on this site and returns the
// cheapest that works. by is the attempt that it mends, -1 where it makes a
// new one.
func (c *catalogue) cheapestCure(p int, tries []attempt, missing map[int]bool, cleanouts map[int]trialResult) (cure Cure, by int, found bool) {
	prices := &c.tables.Cures
	best := 0.0
	take := func(price float64, candidate Cure, attempt int) {
		if !found || price < best {
			cure, by, best, found = candidate, attempt, price, true
		}
	}
	by = -1
	for i := range tries {
		t := &tries[i]
		if len(t.broken) > 0 || t.reelHolds() {
			continue
		}
		if price := float64(t.over) * prices.HosePerMetre; !found || price < best {
			longer := c.withHose(t.way.hose, t.over)
			if again := longer.attempt(t.way.access, t.way.hose, c.wayBetween(t.way.access, p)); again.works() {
				take(price, Cure{Kind: LongerHose, Length: t.over, Gains: c.pipes[p].length}, i)
			}
		}
		if lay := c.spots[t.spot].lay[t.way.access] - t.over; lay >= 0 {
			take(prices.NewSpot, Cure{Kind: OtherSpot, Length: lay, Gains: c.pipes[p].length}, i)
		}
	}
	if !found || prices.NewCleanout < best {
		if q, r, ok := c.cleanoutFor(p, missing, cleanouts); ok {
			take(prices.NewCleanout, Cure{
				Kind: NewCleanout, Pipe: c.site.Network.Pipes[q].ID, Name: c.g.PipeName(q),
				At: c.pipes[q].length, Gains: r.gains,
			}, -1)
		}
	}
	return cure, by, found
}

// cleanoutFor finds the lowest pipe among those not cleaned, going down from p,
// on which a new cleanout makes p reachable; the lower, the more it gains.
func (c *catalogue) cleanoutFor(p int, missing map[int]bool, cleanouts map[int]trialResult) (pipe int, result trialResult, ok bool) {
	for q := p; q >= 0 && missing[q]; q = c.g.Next[q] {
		r, known := cleanouts[q]
		if !known {
			t, access := c.withCleanout(q)
			r.reach = t.reachFrom(access, q)
			for u := range c.pipes {
				if r.reach[u] && missing[u] {
					r.gains += c.pipes[u].length
				}
			}
			cleanouts[q] = r
		}
		if !r.reach[p] {
			break
		}
		pipe, result, ok = q, r, true
	}
	return pipe, result, ok
}

// fallbackCure names the kind of thing that would mend a reason where no cure
// could be tried on this site.
func fallbackCure(r Reason) Cure {
	switch r {
	case HoseTooLarge, HoseTooSmall, OverBends, TurnTooSharp, BranchTurn:
		return Cure{Kind: SmallerHose}
	case NoNozzle:
		return Cure{Kind: OtherNozzle}
	case PullShort:
		return Cure{Kind: StrongerRig}
	case NoWater:
		return Cure{Kind: MoreWater}
	case OverReel:
		return Cure{Kind: LongerHose}
	case NoSpot:
		return Cure{Kind: OtherSpot}
	}
	return Cure{Kind: ClearByHand}
}
