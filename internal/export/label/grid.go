package label

import (
	"math"
	"slices"

	"linemap/internal/export/drawing"
)

// cell is the side of a grid's square in millimetres, about a label's width.
const cell = 12.0

// grid finds what is near a place: the numbers of things by the squares that
// their bounds touch.
type grid map[[2]int][]int

func (g grid) squares(b drawing.Box, visit func(key [2]int)) {
	x0, x1 := int(math.Floor(b.X/cell)), int(math.Floor(b.Right()/cell))
	y0, y1 := int(math.Floor(b.Y/cell)), int(math.Floor(b.Bottom()/cell))
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			visit([2]int{x, y})
		}
	}
}

func (g grid) add(i int, b drawing.Box) {
	g.squares(b, func(key [2]int) { g[key] = append(g[key], i) })
}

func (g grid) remove(i int, b drawing.Box) {
	g.squares(b, func(key [2]int) {
		if k := slices.Index(g[key], i); k >= 0 {
			g[key] = slices.Delete(g[key], k, k+1)
		}
	})
}

// near visits once everything that shares a square with b, in ascending order
// of its number.
func (g grid) near(b drawing.Box, visit func(i int)) {
	var seen []int
	g.squares(b, func(key [2]int) { seen = append(seen, g[key]...) })
	slices.Sort(seen)
	for k, i := range seen {
		if k == 0 || i != seen[k-1] {
			visit(i)
		}
	}
}

// span returns the upright box around a segment, half wide to either side.
func span(a, b Point, half float64) drawing.Box {
	x0, x1 := min(a.X, b.X)-half, max(a.X, b.X)+half
	y0, y1 := min(a.Y, b.Y)-half, max(a.Y, b.Y)+half
	return drawing.Box{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}
}

// union returns the upright box around two.
func union(a, b drawing.Box) drawing.Box {
	x, y := min(a.X, b.X), min(a.Y, b.Y)
	return drawing.Box{X: x, Y: y, W: max(a.Right(), b.Right()) - x, H: max(a.Bottom(), b.Bottom()) - y}
}
