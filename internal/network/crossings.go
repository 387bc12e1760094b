package network

import (
	"cmp"
	"math"
	"slices"

	"linemap/internal/unit"
)

// Bounds of the search for crossings. A sketch past them is hopeless anyway,
// and the check must end.
const (
	earth        = unit.Length(4e7) // no plan is wider than the Earth is round
	mostTold     = 500
	testsPerPart = 400
)

// touches is how near an end must come to another pipe to lie on it: a
// millimetre, and what coordinates may round by.
const touches = unit.Length(0.001 + 1e-6)

// segment is one straight of a pipe on the plan.
type segment struct {
	pipe int
	a, b Point
}

// crossings tells of pipes on one level that cross, or end on one another,
// without a fitting. Pipes that meet at a node, and pipes whose measured
// inverts keep them apart, do not cross.
func (c *checker) crossings() {
	parts, cell := c.segments()
	grid := map[[2]int][]int{}
	told := map[[2]int]bool{}
	tests := testsPerPart * len(parts)
	for i, s := range parts {
		for _, at := range s.cells(cell) {
			for _, j := range grid[at] {
				if tests--; tests < 0 || len(told) >= mostTold {
					c.add(Finding{Gravity: Warning, Kind: "many_crossings", Place: "the sketch"}, Finding{
						What: "Too many pipes lie on top of one another to tell of each crossing.",
						Cure: "Check the scale and the places of the joints.",
					})
					return
				}
				c.cross(parts[j], s, told)
			}
			grid[at] = append(grid[at], i)
		}
	}
}

// segments lists the straights of all level pipes in the order of their IDs,
// and the mean of their lengths, a good size for the cells of a grid.
func (c *checker) segments() ([]segment, unit.Length) {
	g := c.g
	order := make([]int, 0, len(g.Up))
	for p := range g.Up {
		if up, down := g.Up[p], g.Down[p]; up >= 0 && g.Net.Nodes[up].Level == g.Net.Nodes[down].Level {
			order = append(order, p)
		}
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(g.Net.Pipes[a].ID, g.Net.Pipes[b].ID), a-b) })
	var parts []segment
	sum := unit.Length(0)
	for _, p := range order {
		line := g.trace(p)
		for i := 1; i < len(line); i++ {
			s := segment{pipe: p, a: line[i-1], b: line[i]}
			if l := s.a.Distance(s.b); l > 0 && s.a.onEarth() && s.b.onEarth() {
				parts = append(parts, s)
				sum += l
			}
		}
	}
	return parts, sum / unit.Length(max(1, len(parts)))
}

func (p Point) onEarth() bool {
	return p.X > -earth && p.X < earth && p.Y > -earth && p.Y < earth
}

// cells lists the cells of a grid that the segment passes, column by column.
func (s segment) cells(size unit.Length) [][2]int {
	size = max(size, touches)
	index := func(v unit.Length) int { return int(math.Floor(float64(v / size))) }
	a, b := s.a, s.b
	if b.X < a.X {
		a, b = b, a
	}
	var cells [][2]int
	for col := index(a.X - touches); col <= index(b.X+touches); col++ {
		// The piece of the segment inside this column.
		y0, y1 := a.Y, b.Y
		if b.X > a.X {
			at := func(x unit.Length) unit.Length {
				t := max(0, min(1, (x-a.X)/(b.X-a.X)))
				return a.Y + t*(b.Y-a.Y)
			}
			y0, y1 = at(unit.Length(col)*size-touches), at(unit.Length(col+1)*size+touches)
		}
		for row := index(min(y0, y1) - touches); row <= index(max(y0, y1)+touches); row++ {
			cells = append(cells, [2]int{col, row})
		}
	}
	return cells
}

// cross tells of two segments that meet where their pipes do not.
func (c *checker) cross(s, t segment, told map[[2]int]bool) {
	g := c.g
	p, q := s.pipe, t.pipe
	if p == q || told[[2]int{p, q}] || g.Net.Nodes[g.Up[p]].Level != g.Net.Nodes[g.Up[q]].Level ||
		g.Up[p] == g.Up[q] || g.Up[p] == g.Down[q] || g.Down[p] == g.Up[q] || g.Down[p] == g.Down[q] {
		return
	}
	at, ok := s.meets(t)
	if !ok || c.apart(p, q, at) {
		return
	}
	told[[2]int{p, q}] = true
	c.add(g.atPipe(p, Warning, "crosses_unjoined"), Finding{
		What:  "Crosses " + g.PipeName(q) + " on the same level, and nothing joins them.",
		Value: height(at.X) + " east, " + height(at.Y) + " north",
		Cure:  "Join them with a fitting, or say by levels or inverts which one passes above.",
	})
}

// meets finds where two segments cross or one ends on the other.
func (s segment) meets(t segment) (Point, bool) {
	dx, dy := s.b.X-s.a.X, s.b.Y-s.a.Y
	ex, ey := t.b.X-t.a.X, t.b.Y-t.a.Y
	fx, fy := t.a.X-s.a.X, t.a.Y-s.a.Y
	// Segments side by side have no one crossing: their ends tell.
	if det := dx*ey - dy*ex; abs(det) > unit.Length(slack)*s.a.Distance(s.b)*t.a.Distance(t.b) {
		u, v := (fx*ey-fy*ex)/det, (fx*dy-fy*dx)/det
		if u >= 0 && u <= 1 && v >= 0 && v <= 1 {
			return Point{X: s.a.X + u*dx, Y: s.a.Y + u*dy}, true
		}
	}
	for _, end := range []struct {
		at Point
		on segment
	}{{s.a, t}, {s.b, t}, {t.a, s}, {t.b, s}} {
		if end.on.off(end.at) <= touches {
			return end.at, true
		}
	}
	return Point{}, false
}

// off is the distance of a point from the segment.
func (s segment) off(p Point) unit.Length {
	dx, dy := s.b.X-s.a.X, s.b.Y-s.a.Y
	t := ((p.X-s.a.X)*dx + (p.Y-s.a.Y)*dy) / (dx*dx + dy*dy)
	t = max(0, min(1, t))
	return p.Distance(Point{X: s.a.X + t*dx, Y: s.a.Y + t*dy})
}

// apart reports whether measured inverts put one pipe above the other where
// they cross.
func (c *checker) apart(p, q int, at Point) bool {
	g := c.g
	if !g.inverts(p) || !g.inverts(q) {
		return false
	}
	zp, zq := g.heightAt(p, at), g.heightAt(q, at)
	lower := p
	if zq < zp {
		lower = q
	}
	return abs(zp-zq) > g.Net.Pipes[lower].Size.Nominal()
}

// heightAt is the invert of pipe p at the place on its line nearest to a point.
func (g *Graph) heightAt(p int, at Point) unit.Length {
	line := g.Polyline(p)
	best, way, total := unit.Length(math.Inf(1)), unit.Length(0), unit.Length(0)
	for i := 1; i < len(line); i++ {
		s := segment{a: line[i-1], b: line[i]}
		if l := s.a.Distance(s.b); l > 0 {
			// A line may pass the place twice: the first time counts.
			if off := s.off(at); off < best-touches {
				best, way = off, total+s.a.Distance(at)
			}
			total += l
		}
	}
	up, down := g.Elevation(g.Up[p]), g.Elevation(g.Down[p])
	if total == 0 {
		return up
	}
	return up + (down-up)*min(1, way/total)
}
