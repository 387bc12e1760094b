package label

import (
	"math"
	"slices"

	"linemap/internal/export/drawing"
)

// cell is the side of a grid's square in millimetres, about a label's width.
const cell = 12.0

// grid finds what is near a place: the numbers of things by the squares that
// their bounds touch. Squares off the paper count as those at its edge, so that
// a thing far away costs no more than one nearby.
type grid struct {
	squares map[[2]int][]int
	paper   drawing.Box
	// seen[i] is the number of the search that met thing i last.
	seen   []int
	search *int
}

func newGrid(paper drawing.Box, things int) grid {
	return grid{map[[2]int][]int{}, paper, make([]int, things), new(int)}
}

func (g grid) each(b drawing.Box, visit func(key [2]int)) {
	x0, x1 := square(b.X, g.paper.X, g.paper.Right()), square(b.Right(), g.paper.X, g.paper.Right())
	y0, y1 := square(b.Y, g.paper.Y, g.paper.Bottom()), square(b.Bottom(), g.paper.Y, g.paper.Bottom())
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			visit([2]int{x, y})
		}
	}
}

func square(v, low, high float64) int {
	return int(math.Floor(max(low, min(high, v)) / cell))
}

func (g grid) add(i int, b drawing.Box) {
	g.each(b, func(key [2]int) { g.squares[key] = append(g.squares[key], i) })
}

func (g grid) remove(i int, b drawing.Box) {
	g.each(b, func(key [2]int) {
		if k := slices.Index(g.squares[key], i); k >= 0 {
			g.squares[key] = slices.Delete(g.squares[key], k, k+1)
		}
	})
}

// near visits once everything that shares a square with b, until visit returns
// false.
func (g grid) near(b drawing.Box, visit func(i int) bool) {
	*g.search++
	x0, x1 := square(b.X, g.paper.X, g.paper.Right()), square(b.Right(), g.paper.X, g.paper.Right())
	y0, y1 := square(b.Y, g.paper.Y, g.paper.Bottom()), square(b.Bottom(), g.paper.Y, g.paper.Bottom())
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			for _, i := range g.squares[[2]int{x, y}] {
				if g.seen[i] == *g.search {
					continue
				}
				g.seen[i] = *g.search
				if !visit(i) {
					return
				}
			}
		}
	}
}

// span returns the upright box around a segment, half wide to either side.
func span(a, b Point, half float64) drawing.Box {
	x0, x1 := min(a.X, b.X)-half, max(a.X, b.X)+half
	y0, y1 := min(a.Y, b.Y)-half, max(a.Y, b.Y)+half
	return drawing.Box{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}
}

// apart reports whether two upright boxes share no area.
func apart(a, b drawing.Box) bool {
	return a.X >= b.Right() || b.X >= a.Right() || a.Y >= b.Bottom() || b.Y >= a.Bottom()
}

// union returns the upright box around two.
func union(a, b drawing.Box) drawing.Box {
	x, y := min(a.X, b.X), min(a.Y, b.Y)
	return drawing.Box{X: x, Y: y, W: max(a.Right(), b.Right()) - x, H: max(a.Bottom(), b.Bottom()) - y}
}
