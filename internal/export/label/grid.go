package label

import (
	"math"
	"slices"

	"linemap/internal/export/drawing"
)

// cell is the side of a grid's square in millimetres, about a label's width.
const cell = 12.0

// mostSquares bounds the squares of a grid; larger paper has larger ones.
const mostSquares = 1 << 16

// grid finds what is near a place: the numbers of things by the squares of the
// paper that they touch. The squares at the edge reach as far as anything does,
// so that a thing off the paper costs no more than one on it.
type grid struct {
	corner     Point // of the first square
	side       float64
	wide, high int // in squares
	squares    [][]int32
	// seen[i] is the number of the search that met thing i last.
	seen   []int32
	search int32
}

func newGrid(paper drawing.Box, things int) *grid {
	side := cell
	if area := paper.W * paper.H; area > mostSquares*side*side {
		side = math.Sqrt(area / mostSquares)
	}
	g := &grid{corner: Point{X: paper.X, Y: paper.Y}, side: side, seen: make([]int32, things)}
	g.wide, g.high = squaresOn(paper.W, side), squaresOn(paper.H, side)
	g.squares = make([][]int32, g.wide*g.high)
	return g
}

// squaresOn returns how many squares a length of paper needs.
func squaresOn(long, side float64) int {
	return int(max(1, min(mostSquares, math.Ceil(long/side))))
}

// block is the squares that a box touches: from the first of each to the last.
type block struct{ x0, x1, y0, y1 int }

func (g *grid) block(b drawing.Box) block {
	return block{
		g.square(b.X-g.corner.X, g.wide), g.square(b.Right()-g.corner.X, g.wide),
		g.square(b.Y-g.corner.Y, g.high), g.square(b.Bottom()-g.corner.Y, g.high),
	}
}

// square returns the number of the square, of so many, that is so far along.
func (g *grid) square(far float64, of int) int {
	return int(max(0, min(float64(of-1), math.Floor(far/g.side))))
}

func (g *grid) add(i int, b drawing.Box) {
	r := g.block(b)
	for y := r.y0; y <= r.y1; y++ {
		for x := r.x0; x <= r.x1; x++ {
			s := y*g.wide + x
			g.squares[s] = append(g.squares[s], int32(i))
		}
	}
}

// addLine adds a line from p to q, half wide to either side, to the squares that
// it touches of those that its bounds do.
func (g *grid) addLine(i int, p, q Point, half float64) {
	r := g.block(span(p, q, half))
	for y := r.y0; y <= r.y1; y++ {
		for x := r.x0; x <= r.x1; x++ {
			if r.x0 != r.x1 && r.y0 != r.y1 {
				low, high := g.reach(x, y, half)
				if _, _, hit := within(p, q, low, high); !hit {
					continue
				}
			}
			s := y*g.wide + x
			g.squares[s] = append(g.squares[s], int32(i))
		}
	}
}

// reach returns the corners of a square that is wider all around, those at the
// edge without end.
func (g *grid) reach(x, y int, wider float64) (low, high Point) {
	const slack = 1e-6 // a place on a side belongs to either square
	wider += slack
	low = g.corner.Add(Point{X: float64(x)*g.side - wider, Y: float64(y)*g.side - wider})
	high = g.corner.Add(Point{X: float64(x+1)*g.side + wider, Y: float64(y+1)*g.side + wider})
	if x == 0 {
		low.X = math.Inf(-1)
	}
	if y == 0 {
		low.Y = math.Inf(-1)
	}
	if x == g.wide-1 {
		high.X = math.Inf(1)
	}
	if y == g.high-1 {
		high.Y = math.Inf(1)
	}
	return low, high
}

func (g *grid) remove(i int, b drawing.Box) {
	r := g.block(b)
	for y := r.y0; y <= r.y1; y++ {
		for x := r.x0; x <= r.x1; x++ {
			s := g.squares[y*g.wide+x]
			if k := slices.Index(s, int32(i)); k >= 0 {
				g.squares[y*g.wide+x] = slices.Delete(s, k, k+1)
			}
		}
	}
}

// near visits once everything that shares a square with b, until visit returns
// false.
func (g *grid) near(b drawing.Box, visit func(i int) bool) {
	g.search++
	r := g.block(b)
	for y := r.y0; y <= r.y1; y++ {
		for x := r.x0; x <= r.x1; x++ {
			for _, i := range g.squares[y*g.wide+x] {
				if g.seen[i] == g.search {
					continue
				}
				g.seen[i] = g.search
				if !visit(int(i)) {
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
