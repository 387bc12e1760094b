package label

import "linemap/internal/export/drawing"

// Prices of a leader that crosses something.
const (
	leaderOverLeader = 40
	leaderOverWall   = 0.15 // share of the wall's own price
	leaderOverMark   = 20   // a wall whose touch is taboo
)

// How near to a mark a label seems to name it, in millimetres, and the price.
const (
	besideMark      = 1.2
	besideMarkPrice = 1.6
)

// place is a candidate with its standing price: its own and that of the walls it
// covers, once it is priced.
type place struct {
	*Candidate
	index  int
	cost   float64
	box    drawing.Box // around the candidate's box
	bounds drawing.Box // around its leader too
}

func newPlace(c *Candidate, index int) place {
	p := place{Candidate: c, index: index, cost: c.Cost, box: c.Box.Bounds()}
	p.bounds = p.box
	if p.leads() {
		p.bounds = union(p.box, span(c.Leader[0], c.Leader[1], 0))
	}
	return p
}

// leads reports whether the place has a leader.
func (p *place) leads() bool { return len(p.Leader) == 2 }

// ground is what stands on the paper already.
type ground struct {
	walls []Wall
	reach []drawing.Box
	grid  *grid
}

func newGround(walls []Wall, paper drawing.Box) *ground {
	g := &ground{walls, make([]drawing.Box, len(walls)), newGrid(paper, len(walls))}
	for i := range walls {
		w := &walls[i]
		g.reach[i] = span(w.A, w.B, w.reach())
		g.grid.addLine(i, w.A, w.B, w.reach())
	}
	return g
}

// reach returns how far from its line a wall costs something.
func (w *Wall) reach() float64 {
	if w.Touch >= Taboo {
		return w.Half + besideMark
	}
	return w.Half
}

// price adds what a place costs for the walls that it covers. It stops counting
// at enough.
func (g *ground) price(p *place, enough float64) {
	g.grid.near(p.bounds, func(i int) bool {
		w := &g.walls[i]
		if !apart(p.box, g.reach[i]) {
			p.cost += p.over(w)
		}
		if p.leads() && !apart(p.bounds, g.reach[i]) {
			p.cost += p.leaderOver(w)
		}
		return p.cost < enough
	})
}

// over returns the price of a wall that the place covers.
func (p *place) over(w *Wall) float64 {
	if long, hit := p.Box.cut(w.A, w.B, w.Half); hit {
		return w.Touch + w.PerMM*long
	}
	if w.Touch >= Taboo {
		// Next to a mark of another label it would seem to name that one.
		if _, next := p.Box.cut(w.A, w.B, w.Half+besideMark); next {
			return besideMarkPrice
		}
	}
	return 0
}

// leaderOver returns the price of a wall that the place's leader crosses.
func (p *place) leaderOver(w *Wall) float64 {
	if w.Touch >= Taboo {
		const own = 0.1 // a leader starts at the edge of its own mark
		if distance(p.Leader[0], p.Leader[1], w.A, w.B) < w.Half-own {
			return leaderOverMark
		}
		return 0
	}
	if cross(p.Leader[0], p.Leader[1], w.A, w.B) {
		return leaderOverWall * (w.Touch + w.PerMM)
	}
	return 0
}

// clash returns the price of two labels standing where they do.
func clash(a, b *place) float64 {
	if apart(a.bounds, b.bounds) {
		return 0
	}
	cost := 0.0
	if !apart(a.box, b.box) && a.Box.Overlaps(b.Box) {
		cost += Taboo
	}
	if a.leads() {
		if _, hit := b.Box.cut(a.Leader[0], a.Leader[1], 0); hit {
			cost += Taboo / 4
		}
	}
	if b.leads() {
		if _, hit := a.Box.cut(b.Leader[0], b.Leader[1], 0); hit {
			cost += Taboo / 4
		}
	}
	if a.leads() && b.leads() && cross(a.Leader[0], a.Leader[1], b.Leader[0], b.Leader[1]) {
		cost += leaderOverLeader
	}
	return cost
}
