package strip

import (
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/route"
)

// hatch is a pattern of lines in a block.
type hatch int

const (
	plain hatch = iota
	rising
	falling
	upright
	level
)

// manner is how a kind of event is shown: by letter, height and hatch as well as
// by colour.
type manner struct {
	kind   route.EventKind
	letter string
	says   string // what the letter stands for
	ink    drawing.Colour
	height float64 // share of the row
	hatch  hatch
}

// manners lists how each kind is shown, in the order in which they are painted and
// explained. Jetting has no letter: it has the number of its run over it.
var manners = []manner{
	{route.EventJet, "", "jet", drawing.Blue, 1, plain},
	{route.EventOpen, "O", "lay hose, open", drawing.Green, 0.62, level},
	{route.EventStart, "F", "feed in", drawing.SkyBlue.Tint(0.5), 0.62, plain},
	{route.EventNozzleChange, "N", "nozzle", drawing.Purple, 0.8, upright},
	{route.EventHoseChange, "H", "hose", drawing.Orange, 0.8, upright},
	{route.EventWait, "W", "wait for water", drawing.Vermillion, 0.62, rising},
	{route.EventFill, "T", "fill tank", drawing.SkyBlue, 0.8, level},
	{route.EventDrain, "D", "drain tank", drawing.Yellow, 0.8, level},
	{route.EventSetUp, "S", "set up", drawing.Pale, 0.8, rising},
	{route.EventPackUp, "P", "pack up", drawing.Pale, 0.8, falling},
	{route.EventMove, "M", "move", drawing.Black, 1, plain},
}

// mannerOf is how an event is shown; a kind without a manner is shown as what the
// crew waits for.
func mannerOf(k route.EventKind) int {
	for i := range manners {
		if manners[i].kind == k {
			return i
		}
	}
	return mannerOf(route.EventWait)
}

// lines returns the lines of a pattern in a box, every so many pixels. They stand
// still on the strip, not in the box, so that blocks next to each other match.
func (h hatch) lines(b drawing.Box, every float64) (out [][2]drawing.Point) {
	if every <= 0 || b.W <= 0 || b.H <= 0 {
		return nil
	}
	line := func(x0, y0, x1, y1 float64) {
		out = append(out, [2]drawing.Point{{X: x0, Y: y0}, {X: x1, Y: y1}})
	}
	switch h {
	case upright:
		for x := ceilTo(b.X, every); x < b.Right(); x += every {
			line(x, b.Y, x, b.Bottom())
		}
	case level:
		for y := ceilTo(b.Y, every); y < b.Bottom(); y += every {
			line(b.X, y, b.Right(), y)
		}
	case rising: // x + y is the same along a line
		for k := ceilTo(b.X+b.Y, every); k < b.Right()+b.Bottom(); k += every {
			x0, x1 := max(b.X, k-b.Bottom()), min(b.Right(), k-b.Y)
			line(x0, k-x0, x1, k-x1)
		}
	case falling: // x - y is
		for k := ceilTo(b.X-b.Bottom(), every); k < b.Right()-b.Y; k += every {
			x0, x1 := max(b.X, k+b.Y), min(b.Right(), k+b.Bottom())
			line(x0, x0-k, x1, x1-k)
		}
	}
	return out
}

// ceilTo is the least multiple of a step that is not under v.
func ceilTo(v, step float64) float64 { return math.Ceil(v/step) * step }
