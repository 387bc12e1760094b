package site

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// pricesFindings looks for pipe of the job that a quote would have to leave out
// because no rate reaches its size.
func (s *Site) pricesFindings() []network.Finding {
	if len(s.Prices.Rates) == 0 {
		return nil
	}
	largest := s.Prices.Rates[len(s.Prices.Rates)-1].UpTo
	without := map[unit.Size]int{}
	for i := range s.Network.Pipes {
		p := &s.Network.Pipes[i]
		if _, ok := s.Prices.Rate(p.Size); !ok && !p.OutOfJob {
			without[p.Size]++
		}
	}
	var all []network.Finding
	for _, size := range sortedKeys(without) {
		all = append(all, network.Finding{
			Gravity: network.Advice, Kind: "size_without_rate", Place: "prices",
			What:  "There is no price for a length of pipe of " + size.In(s.Units) + ", so a quote leaves it out.",
			Value: fmt.Sprintf("pipes of this size: %d", without[size]), Limit: "rates up to " + largest.In(s.Units),
			Cure: "Add a rate for the size.",
		})
	}
	return all
}
