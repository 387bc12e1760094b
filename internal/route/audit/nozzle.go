package audit

import (
	"slices"

	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// best is the nozzle that a duty takes of those that will do.
func (g *ground) best(t *track, d *duty, hose *rig.Hose, nozzles []*rig.Nozzle) *rig.Nozzle {
	best := nozzles[0]
	for _, n := range nozzles[1:] {
		if g.better(t, d, hose, n, best) {
			best = n
		}
	}
	return best
}

// better tells whether one nozzle that will do is to be taken before another:
// its purpose stands earlier in the lists, or as early and more power is left
// at the jets, or as much and it stands earlier in the rig.
func (g *ground) better(t *track, d *duty, hose *rig.Hose, a, b *rig.Nozzle) bool {
	if p, q := d.worstPlace(a), d.worstPlace(b); p != q {
		return p < q
	}
	ceiling := g.ceiling(t, d.far)
	power := func(n *rig.Nozzle) float64 {
		op := g.operate(hose, n, ceiling)
		return float64(op.Operating.Nozzle) * float64(op.Flow)
	}
	switch p, q := power(a), power(b); {
	case p == q:
		return g.placeInRig(a) < g.placeInRig(b)
	case alike(p, q):
		return false // either is right
	default:
		return p > q
	}
}

func (g *ground) placeInRig(n *rig.Nozzle) int {
	return slices.IndexFunc(g.site.Rig.Nozzles, func(m rig.Nozzle) bool { return m.ID == n.ID })
}

// fits tells whether a nozzle goes in at the access and through every pipe out
// to the far hop.
func (g *ground) fits(t *track, far int, n *rig.Nozzle) bool {
	if a := g.net.Nodes[t.access].Access; a == nil || n.MinPipe > a.Size {
		return false
	}
	for _, h := range t.hops[:far+1] {
		if size := g.pipes[h.pipe].Size; size < n.MinPipe || size > n.MaxPipe {
			return false
		}
	}
	return true
}

// place ranks a nozzle for a row: by where its best purpose stands in the row's
// list, then among its own purposes; -1 where the nozzle does not serve.
func place(row site.PassRow, n *rig.Nozzle) int {
	for i, wanted := range row.Nozzles {
		if own := slices.Index(n.Purposes, wanted); own >= 0 {
			return 100*i + own
		}
	}
	return -1
}

// worstPlace is the worst place over everything that a duty works, -1 where
// the nozzle does not serve all of it.
func (d *duty) worstPlace(n *rig.Nozzle) int {
	worst := 0
	for _, row := range d.work {
		p := place(row, n)
		if p < 0 {
			return -1
		}
		worst = max(worst, p)
	}
	return worst
}

// beats tells whether a thrust beats the drag at the end of every hop out to
// the far one.
func beats(thrust unit.Force, drags []unit.Force, slack leeway) bool {
	for _, d := range drags {
		if !(float64(thrust) >= float64(d)*(1-slack.share)) || thrust <= 0 {
			return false
		}
	}
	return true
}

// choices lists the nozzles that will do for a duty.
func (g *ground) choices(t *track, d *duty, hose *rig.Hose, drags []unit.Force, slack leeway) []*rig.Nozzle {
	var out []*rig.Nozzle
	ceiling := g.ceiling(t, d.far)
	for i := range g.site.Rig.Nozzles {
		n := &g.site.Rig.Nozzles[i]
		if d.worstPlace(n) < 0 || !g.fits(t, d.far, n) {
			continue
		}
		if op := g.operate(hose, n, ceiling); op.ok && beats(op.Thrust, drags[:d.far+1], slack) {
			out = append(out, n)
		}
	}
	return out
}
