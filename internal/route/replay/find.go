package replay

import (
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
)

// What a plan names, nil where the site or the plan has no such thing.

func spotOf(s *site.Site, b *route.Block) *site.Spot {
	return find(s.Spots, func(o *site.Spot) bool { return o.ID == b.Spot })
}

func hoseOf(s *site.Site, b *route.Block) *rig.Hose {
	return find(s.Rig.Hoses, func(h *rig.Hose) bool { return h.ID == b.Hose })
}

func runOf(p *route.Plan, e *route.Event) *route.Run {
	if e.Block < 0 || e.Block >= len(p.Blocks) {
		return nil
	}
	return find(p.Blocks[e.Block].Runs, func(r *route.Run) bool { return r.Number == e.Run })
}

func passOf(p *route.Plan, e *route.Event) *route.Pass {
	r := runOf(p, e)
	if r == nil || e.Pass < 0 || e.Pass >= len(r.Passes) {
		return nil
	}
	return &r.Passes[e.Pass]
}

// find returns the first item that is meant, nil where there is none.
func find[T any](items []T, meant func(*T) bool) *T {
	for i := range items {
		if meant(&items[i]) {
			return &items[i]
		}
	}
	return nil
}
