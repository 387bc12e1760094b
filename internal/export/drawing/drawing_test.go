package drawing

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// tape records what a painter is asked to do.
type tape struct{ strings.Builder }

func (t *tape) Clip(b *Box)   { fmt.Fprintf(t, "clip %v;", b != nil) }
func (t *tape) Layer(l Layer) { fmt.Fprintf(t, "layer %q;", l) }
func (t *tape) Outline(o Outline, pen Pen, fill *Colour) {
	fmt.Fprintf(t, "outline %d %.1f %v;", len(o), pen.Width, fill != nil)
}
func (t *tape) Lettering(x Text, p Point) { fmt.Fprintf(t, "text %q %.1f %.1f;", x.S, p.X, p.Y) }

func (t *tape) Picture(_ Picture, c Point, w, h float64) {
	fmt.Fprintf(t, "picture %.1f %.1f %.1fx%.1f;", c.X, c.Y, w, h)
}

func TestFrame(t *testing.T) {
	// 1:200, so that 1 m of ground is 5 mm of paper; y up becomes y down.
	f := Frame{Ground: Point{10, 20}, Paper: Point{100, 50}, Scale: 5}
	assert.Equal(t, Point{110, 45}, f.To(Point{12, 21}))
	assert.Equal(t, Point{3, 4}, Frame{}.To(Point{3, 4}), "the zero frame is the paper")
	rapid.Check(t, func(t *rapid.T) {
		f := Frame{
			Ground: Point{rapid.Float64Range(-1e3, 1e3).Draw(t, "gx"), 3}, Paper: Point{7, rapid.Float64Range(0, 300).Draw(t, "py")},
			Scale: rapid.Float64Range(0.1, 50).Draw(t, "scale"),
		}
		p := Point{rapid.Float64Range(-1e3, 1e3).Draw(t, "x"), rapid.Float64Range(-1e3, 1e3).Draw(t, "y")}
		q := f.From(f.To(p))
		assert.InDelta(t, p.X, q.X, 1e-6)
		assert.InDelta(t, p.Y, q.Y, 1e-6)
	})
}

func TestPaintKeepsOrderAndLayers(t *testing.T) {
	var l List
	l.Add(Drains, Path{Points: []Point{{0, 0}, {1, 0}}, Pen: Pen{Width: 0.5}})
	l.Add(Drains, Mark{Symbol: Flap, Size: 2, Pen: Pen{Width: 0.2}, Fill: &White})
	l.Add(Notes, Text{At: Point{1, 2}, Off: Point{0.5, 0}, S: "CO-1", Plate: &White})
	l.Add(Base, Leader{To: Point{1, 1}, Pen: Pen{Width: 0.1}}, Path{Points: []Point{{0, 0}}})
	var got tape
	Paint(&Sheet{Panels: []Panel{{Clip: &Box{0, 0, 9, 9}, List: l}}}, &got)
	assert.Equal(t, `clip true;layer "Drains";outline 2 0.5 false;outline 4 0.2 true;outline 2 0.2 false;`+
		`layer "Notes";outline 5 0.0 true;text "CO-1" 1.5 2.0;layer "";outline 2 0.1 false;clip false;`, got.String())
}

func TestTicks(t *testing.T) {
	for name, c := range map[string]struct {
		s    Ticks
		want int // strokes
	}{
		"every 2 mm of 10":        {Ticks{Points: []Point{{0, 0}, {10, 0}}, Every: 2, Reach: 1}, 5},
		"crosses":                 {Ticks{Points: []Point{{0, 0}, {10, 0}}, Every: 2, Reach: 1, Cross: true}, 10},
		"the distance runs on":    {Ticks{Points: []Point{{0, 0}, {3, 0}, {3, 7}}, Every: 2, Reach: 1}, 5},
		"too short, one all same": {Ticks{Points: []Point{{0, 0}, {0.5, 0}}, Every: 2, Reach: 1}, 1},
		"a stack, seen from above": {
			Ticks{Points: []Point{{4, 4}, {4, 4}}, Every: 2, Reach: 1, Cross: true}, 2,
		},
		"no distance": {Ticks{Points: []Point{{0, 0}, {10, 0}}, Reach: 1}, 0},
	} {
		t.Run(name, func(t *testing.T) {
			var got tape
			c.s.paint(Frame{}, &got)
			strokes := 0
			fmt.Sscanf(got.String(), "outline %d", &strokes)
			assert.Equal(t, 2*c.want, strokes)
		})
	}
}

// Symbols fill the unit square that their size promises, and turn about the
// place they mark.
func TestSymbols(t *testing.T) {
	for s := Disc; s <= Plate; s++ {
		for _, o := range s.figures(0) {
			assert.Equal(t, Move, o[0].Op)
			for _, step := range o.at(Point{}, 1, 1.1) {
				for _, p := range step.P {
					assert.LessOrEqual(t, math.Hypot(p.X, p.Y), math.Sqrt2+1e-9, "symbol %d", s)
				}
			}
		}
	}
	tip := Pointer.figures(0)[0].at(Point{5, 5}, 2, math.Pi/2)[0].P[0]
	assert.InDelta(t, 5, tip.X, 1e-9)
	assert.InDelta(t, 3, tip.Y, 1e-9, "north is up on the paper")
}

// A disc or a square that is longer than high reaches so far to either side of its
// place, and no higher.
func TestLongMarks(t *testing.T) {
	for _, sym := range []Symbol{Disc, Square} {
		low, high := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
		for _, o := range sym.figures(3.0 / 4) {
			for _, step := range o.at(Point{10, 10}, 2, 0) {
				if step.Op == Close {
					continue
				}
				end := step.P[0]
				if step.Op == Curve {
					end = step.P[2]
				}
				low, high = Point{min(low.X, end.X), min(low.Y, end.Y)}, Point{max(high.X, end.X), max(high.Y, end.Y)}
			}
		}
		assert.Equal(t, Point{6.5, 8}, low)
		assert.Equal(t, Point{13.5, 12}, high)
	}
}

// The inks of Okabe and Ito's palette, as published (jfly.uni-koeln.de/color,
// 2008), and the sizes of grey that they leave.
func TestPalette(t *testing.T) {
	for hex, c := range map[string]Colour{
		"#e69f00": Orange, "#56b4e9": SkyBlue, "#009e73": Green, "#f0e442": Yellow,
		"#0072b2": Blue, "#d55e00": Vermillion, "#cc79a7": Purple,
	} {
		assert.Equal(t, hex, c.Hex())
		assert.Greater(t, c.Tint(0.42).Luma(), 0.68, "black stays legible on the tint")
	}
	assert.Equal(t, White, Orange.Tint(0))
	assert.Equal(t, Orange, Orange.Tint(1))
	assert.InDelta(t, 1, White.Luma(), 1e-9)
}
