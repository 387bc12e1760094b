package chart

import (
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/unit"
)

// turning is what an extra page costs the reader, in [storey.toil] for each
// thing labelled.
const turning = 0.12

// parting is what it costs the reader, likewise, that levels which run into each
// other are drawn apart.
const parting = 0.05

// together bounds how many storeys are tried on one page.
const together = 20

// pages spreads the site over as few pages as keep it readable, with levels
// that run into each other drawn as one plan or apart, whichever reads better.
func (d *draft) pages(area drawing.Box) ([]page, error) {
	var best []page
	least := math.Inf(1)
	for _, merge := range []bool{true, false} {
		all := storeys(d.graph, merge)
		if len(all) == 0 { // nothing drawn yet: an empty plan, with its spots
			all = []*storey{{levels: []network.Level{{}}, box: nowhere(), main: true}}
		}
		d.widen(&all[0].box)
		d.widenToNotes(all)
		for _, st := range all {
			d.measure(st)
		}
		pages, cost, err := spread(all, area, d.sys)
		if err != nil {
			return nil, err
		}
		if !merge {
			for _, st := range all {
				cost += parting * float64(st.crowd)
			}
		}
		if cost < least-1e-9 {
			best, least = pages, cost
		}
	}
	for i := range best {
		for _, pn := range best[i].panels {
			if pn.tile != nil {
				pn.tile.sheet = i
			}
		}
	}
	return best, nil
}

// spread breaks the storeys, in order, into pages so that the whole is least
// hard to read, by the cheapest way from each storey to the last. It returns
// the pages with what they cost the reader.
func spread(all []*storey, area drawing.Box, sys unit.System) ([]page, float64, error) {
	crowd := 0
	for _, st := range all {
		crowd += st.crowd
	}
	turn := turning * float64(crowd)
	cost := make([]float64, len(all)+1)
	first := make([][]page, len(all))
	for i := len(all) - 1; i >= 0; i-- {
		cost[i] = math.Inf(1)
		for k := i + 1; k <= min(len(all), i+together); k++ {
			pages, err := sheets(all[i:k], area, sys)
			if err != nil {
				if k == i+1 {
					return nil, 0, err
				}
				break // more storeys fit no better
			}
			c := cost[k] + turn*float64(len(pages))
			for _, p := range pages {
				c += p.toil
			}
			if c < cost[i]-1e-9 {
				cost[i], first[i] = c, pages
			}
		}
	}
	var done []page
	for i := 0; i < len(all); {
		done = append(done, first[i]...)
		i += len(first[i][0].panels)
	}
	return done, cost[0], nil
}

// sheets is one page with the storeys; for a single one that is too large for
// a page, its overview and tiles.
func sheets(all []*storey, area drawing.Box, sys unit.System) ([]page, error) {
	p, err := arrange(all, area, sys)
	if err != nil {
		return nil, err
	}
	if !p.readable() {
		if len(all) > 1 {
			return nil, errTooLarge
		}
		return tiled(p, area, sys), nil
	}
	return []page{p}, nil
}

// readable reports whether neither a page nor any plan on it is too hard to
// read.
func (p *page) readable() bool {
	crowd := 0
	for _, q := range p.panels {
		crowd += q.st.crowd
		if q.st.strained(q.den) > square(limit) {
			return false
		}
	}
	return p.toil <= float64(crowd)*square(strain)
}
