package board

import (
	"fmt"
	"image/color"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/ui/hand"
	"linemap/internal/ui/view"
)

// ghost draws what the tool in hand would do.
func (br brush) ghost(g hand.Ghost) {
	for _, l := range g.Lines {
		switch l.Kind {
		case hand.NewPipe:
			br.line(l.Points, br.look.Colour(drawing.Blue, 1), 3)
		case hand.Moved:
			br.line(l.Points, br.look.Colour(drawing.Blue, 0.7), 2)
		case hand.HosePath:
			br.dashed(l.Points, br.look.Colour(drawing.Blue, 1), 3)
		case hand.Guideline:
			br.dashed(l.Points, br.look.Colour(drawing.Vermillion, 0.8), 1)
		case hand.Lit:
			br.line(l.Points, br.look.Colour(drawing.Orange, 0.5), 9)
		}
	}
	for _, m := range g.Marks {
		switch m.Kind {
		case hand.Aim:
			br.cross(m.At)
		case hand.Handle:
			br.handle(m.At)
		case hand.Corner:
			br.disc(m.At, 4, br.look.Colour(drawing.Blue, 1), br.look.Colour(drawing.White, 1), 2)
		case hand.Hover:
			br.disc(m.At, 12, br.look.Colour(drawing.Orange, 1), color.Transparent, 3)
		}
	}
	if g.Box != nil {
		br.box(br.view.Dot(g.Box[0]), br.view.Dot(g.Box[1]), br.look.Colour(drawing.Blue, 1), br.look.Colour(drawing.Blue, 0.08), 1)
	}
	for _, t := range g.Texts {
		d := br.view.Dot(t.At)
		br.text(view.Dot{X: d.X + 14, Y: d.Y - 26}, t.S, true)
	}
}

// cross marks where a click would land.
func (br brush) cross(at network.Point) {
	d := br.view.Dot(at)
	c := br.look.Colour(drawing.Vermillion, 1)
	const arm, gap = 11, 3
	for _, s := range [][4]float64{{-arm, 0, -gap, 0}, {gap, 0, arm, 0}, {0, -arm, 0, -gap}, {0, gap, 0, arm}} {
		br.stroke(view.Dot{X: d.X + s[0], Y: d.Y + s[1]}, view.Dot{X: d.X + s[2], Y: d.Y + s[3]}, c, 2)
	}
}

// hose draws the hose and the nozzle while the day is played.
func (br brush) hose(p Played) {
	br.dashed(p.Lay, br.look.Colour(drawing.Blue, 1), 4)
	br.line(p.Hose, br.look.Colour(drawing.Vermillion, 0.9), 5)
	if n := len(p.Hose); n > 0 {
		nozzle := p.Hose[n-1]
		br.disc(nozzle, 7, br.look.Colour(drawing.White, 1), br.look.Colour(drawing.Vermillion, 1), 2)
		if d := br.view.Dot(nozzle); p.Label != "" && br.sees(d) {
			br.text(view.Dot{X: d.X + 14, Y: d.Y + 10}, p.Label, false)
		}
	}
}

// lit draws the run that is lit up.
func (br brush) lit(b *Board) {
	plan := b.desk.Planning().Plan
	if b.lit == 0 || plan == nil {
		return
	}
	g := b.desk.Graph()
	for i := range plan.Blocks {
		for k := range plan.Blocks[i].Runs {
			r := &plan.Blocks[i].Runs[k]
			if r.Number != b.lit {
				continue
			}
			for _, leg := range r.Path {
				if p, ok := g.PipeIndex(leg.Pipe); ok && g.Up[p] >= 0 && g.Down[p] >= 0 {
					br.line(g.Polyline(p), br.look.Colour(drawing.Orange, 0.55), 15)
				}
			}
			if n, ok := g.NodeIndex(r.Access); ok {
				br.disc(g.Net.Nodes[n].At, 14, br.look.Colour(drawing.Vermillion, 1), color.Transparent, 3)
			}
		}
	}
}

// scaleBar draws a bar of a round length at the foot of the board.
func (br brush) scaleBar(b *Board) {
	const longest, tick = 160, 6
	if br.view.W < 2*longest || br.view.H < 60 {
		return
	}
	sys := b.desk.Units()
	long := br.view.ScaleBar(longest, sys)
	px := long.Metres() * br.view.Scale
	y := br.view.H - 16
	x := 16.0
	br.plate(float32(x-8), float32(y-28), float32(px+16), 38)
	ink := br.look.Colour(drawing.Black, 1)
	br.stroke(view.Dot{X: x, Y: y}, view.Dot{X: x + px, Y: y}, ink, 2)
	for _, at := range []float64{0, 0.5, 1} {
		br.stroke(view.Dot{X: x + at*px, Y: y - tick}, view.Dot{X: x + at*px, Y: y}, ink, 2)
	}
	s := sys.Length(long)
	if sys == "us" && long.Feet() < 1 {
		s = fmt.Sprintf("%.0f in", long.Inches())
	} else if long.Metres() < 1 && sys != "us" {
		s = fmt.Sprintf("%.0f cm", 100*long.Metres())
	}
	br.text(view.Dot{X: x + 4, Y: y - 28}, s, false)
}

// sees reports whether a dot is on the board.
func (br brush) sees(d view.Dot) bool {
	return d.X >= 0 && d.Y >= 0 && d.X <= br.view.W && d.Y <= br.view.H
}
