package site

import (
	"iter"
	"slices"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// edges are the sides of the outline, the closing one last.
func (a *Area) edges() iter.Seq2[network.Point, network.Point] {
	return func(yield func(network.Point, network.Point) bool) {
		for i, from := range a.Outline {
			if !yield(from, a.Outline[(i+1)%len(a.Outline)]) {
				return
			}
		}
	}
}

// cuts are the shares of the way from p to q at which it may come into the area
// or leave it, from 0 to 1.
func (a *Area) cuts(p, q network.Point) []float64 {
	all := []float64{0, 1}
	for from, to := range a.edges() {
		if t, _, ok := meet(p, q, from, to); ok && 0 < t && t < 1 {
			all = append(all, t)
		}
		// A side along the way meets it at its own ends.
		for _, end := range [...]network.Point{from, to} {
			if t := shareOf(end, p, q); 0 < t && t < 1 && end.Distance(between(p, q, t)) <= hair {
				all = append(all, t)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// selfCrossing finds where an outline crosses or touches itself. A corner that
// stands twice in a row is one.
func selfCrossing(outline []network.Point) (network.Point, bool) {
	outline = slices.Compact(slices.Clone(outline))
	if n := len(outline); n > 1 && outline[n-1] == outline[0] {
		outline = outline[:n-1]
	}
	n := len(outline)
	for i := range n {
		a, b := outline[i], outline[(i+1)%n]
		for k := i + 1; k < n; k++ {
			c, d := outline[k], outline[(k+1)%n]
			ends := [...]bool{onSide(c, a, b), onSide(d, a, b), onSide(a, c, d), onSide(b, c, d)}
			if k == i+1 { // the corner b is c
				ends[0], ends[3] = false, false
			}
			if (k+1)%n == i { // the corner d is a
				ends[1], ends[2] = false, false
			}
			if at := slices.Index(ends[:], true); at >= 0 {
				return [...]network.Point{c, d, a, b}[at], true
			}
			if k == i+1 || (k+1)%n == i {
				continue
			}
			if t, u, ok := meet(a, b, c, d); ok && 0 <= t && t <= 1 && 0 <= u && u <= 1 {
				return between(a, b, t), true
			}
		}
	}
	return network.Point{}, false
}

func onSide(p, a, b network.Point) bool { return p.Distance(nearestOn(p, a, b)) <= hair }

// meet returns the shares of the ways from a to b and from c to d at which the
// straight lines through them meet, false for lines side by side.
func meet(a, b, c, d network.Point) (t, u float64, ok bool) {
	const slack = 1e-12
	px, py := (b.X - a.X).Metres(), (b.Y - a.Y).Metres()
	qx, qy := (d.X - c.X).Metres(), (d.Y - c.Y).Metres()
	fx, fy := (c.X - a.X).Metres(), (c.Y - a.Y).Metres()
	det := px*qy - py*qx
	if size := a.Distance(b).Metres() * c.Distance(d).Metres(); !(max(det, -det) > slack*size) {
		return 0, 0, false
	}
	return (fx*qy - fy*qx) / det, (fx*py - fy*px) / det, true
}

// nearestOn is the place of the straight from a to b that is nearest to p.
func nearestOn(p, a, b network.Point) network.Point {
	return between(a, b, max(0, min(1, shareOf(p, a, b))))
}

// shareOf is how far along the straight line through a and b the place nearest
// to p lies: 0 at a, 1 at b.
func shareOf(p, a, b network.Point) float64 {
	dx, dy := (b.X - a.X).Metres(), (b.Y - a.Y).Metres()
	square := dx*dx + dy*dy
	if square == 0 {
		return 0
	}
	return ((p.X-a.X).Metres()*dx + (p.Y-a.Y).Metres()*dy) / square
}

func between(a, b network.Point, t float64) network.Point {
	if t == 1 {
		return b
	}
	return network.Point{X: a.X + unit.Length(t)*(b.X-a.X), Y: a.Y + unit.Length(t)*(b.Y-a.Y)}
}

// halfway is the middle of a way.
func halfway(way []network.Point) network.Point {
	left := run(way) / 2
	for i := 1; i < len(way); i++ {
		leg := way[i-1].Distance(way[i])
		if leg >= left && leg > 0 {
			return between(way[i-1], way[i], float64(left/leg))
		}
		left -= leg
	}
	return way[len(way)-1]
}

// apart reports whether the straight from p to q lies wholly beside a frame.
func apart(low, high, p, q network.Point) bool {
	return max(p.X, q.X) < low.X || min(p.X, q.X) > high.X || max(p.Y, q.Y) < low.Y || min(p.Y, q.Y) > high.Y
}
