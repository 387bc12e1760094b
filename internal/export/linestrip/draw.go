package linestrip

import (
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/unit"
)

// Pens of a strip.
var (
	layPen    = drawing.Pen{Width: 0.5, Dash: []float64{1.3, 1}}
	bandPen   = drawing.Pen{Width: 0.2, Ink: drawing.Grey}
	hatchPen  = drawing.Pen{Width: 0.2}
	markPen   = drawing.Pen{Width: 0.45}
	leaderPen = drawing.Pen{Width: 0.2, Ink: drawing.Grey}
	scalePen  = drawing.Pen{Width: 0.2, Ink: drawing.Grey}
)

// Half the width of the band of cleaned pipe, and how far a hatch reaches.
const (
	bandReach  = 2.0
	hatchReach = 1.9
)

// leastTicks is the least distance of the ticks of the scale in millimetres.
const leastTicks = 2.0

// Draw draws the strip of a line over a height, with the marks and their
// leaders.
func (l *Line) Draw(height float64, stops []Stop) drawing.List {
	d := &strip{Line: l, Scale: l.Scale(height)}
	for i := range l.Pipes {
		d.pipe(&l.Pipes[i])
	}
	d.lay()
	d.ticks()
	for _, s := range stops {
		d.leader(s)
	}
	for _, at := range l.Near {
		d.near(at)
	}
	for _, at := range l.Warn {
		d.warn(at)
	}
	for _, s := range stops {
		d.mark(s)
	}
	return d.list
}

type strip struct {
	*Line
	Scale
	list drawing.List
}

func (d *strip) add(shapes ...drawing.Shape) { d.list.Add(drawing.Base, shapes...) }

// stroke adds a line through x, y pairs.
func (d *strip) stroke(pen drawing.Pen, xy ...float64) {
	d.add(drawing.Path{Points: points(xy), Pen: pen})
}

// points makes places of a strip of x, y pairs.
func points(xy []float64) []drawing.Point {
	pts := make([]drawing.Point, 0, len(xy)/2)
	for i := 0; i+1 < len(xy); i += 2 {
		pts = append(pts, At(xy[i], xy[i+1]))
	}
	return pts
}

// pipe draws what of a pipe lies on the strip.
func (d *strip) pipe(p *Pipe) {
	if p.To <= d.From || p.From >= d.End {
		return
	}
	top, foot := d.Y(p.From), d.Y(p.To)
	if p.Cleaned {
		d.add(drawing.Path{
			Points: points([]float64{RailX - bandReach, top, RailX + bandReach, top, RailX + bandReach, foot, RailX - bandReach, foot}),
			Closed: true, Pen: bandPen, Fill: &drawing.Faint,
		})
	}
	rail := points([]float64{RailX, top, RailX, foot})
	if h := p.Hatch; h.Every > 0 {
		reach := hatchReach
		if h.Cross {
			reach = hatchReach / 2
		}
		d.add(drawing.Ticks{Points: rail, Every: h.Every, Reach: reach, Cross: h.Cross, Pen: hatchPen})
	}
	d.add(drawing.Path{Points: rail, Pen: p.Pen})
}

// lay draws the hose on the ground and in the riser, from the reel.
func (d *strip) lay() {
	foot := d.Lay
	if len(d.Pipes) > 0 {
		foot = max(foot, d.Pipes[0].From)
	}
	if d.From >= foot {
		return
	}
	top := d.Y(d.From)
	d.stroke(layPen, RailX, top, RailX, d.Y(foot))
	if d.From > 0 {
		return
	}
	if d.Cut {
		y := (top + d.Y(d.Lay)) / 2
		d.add(drawing.Path{
			Points: points([]float64{RailX - 2, y + 0.5, RailX + 2, y - 1.1, RailX + 2, y - 0.5, RailX - 2, y + 1.1}),
			Closed: true, Fill: &drawing.White,
		})
		d.stroke(markPen, RailX-2, y+0.5, RailX+2, y-1.1)
		d.stroke(markPen, RailX-2, y+1.1, RailX+2, y-0.5)
	}
	d.add(
		drawing.Mark{At: At(RailX, top), Symbol: drawing.Disc, Size: 3, Pen: markPen, Fill: &drawing.White},
		drawing.Mark{At: At(RailX, top), Symbol: drawing.Disc, Size: 1, Fill: &drawing.Black})
}

// ticks draws the scale: a tick at every step of the counter in the pipe.
func (d *strip) ticks() {
	step := d.Step.Metres()
	if !(step > 0) || !(d.PerMetre > 0) {
		return
	}
	for step*d.PerMetre < leastTicks {
		step *= 5
	}
	first := math.Ceil(max(d.Lay, d.From).Metres() / step)
	last := math.Floor(d.End.Metres() / step)
	for i := first; i <= last; i++ {
		y := d.Y(unit.Metres(i * step))
		d.stroke(scalePen, RailX-bandReach-1, y, RailX-bandReach, y)
	}
}

// leader joins a mark with its row.
func (d *strip) leader(s Stop) {
	y := d.Y(s.At)
	d.stroke(leaderPen, leaveX, y, leaveX+1, y, LeaderEnd-1, s.Row, max(LeaderEnd, s.X), s.Row)
}

// near marks where a fixture that may blow back joins: the map's square on a
// stub.
func (d *strip) near(at unit.Length) {
	if at < d.From || at > d.End {
		return
	}
	y := d.Y(at)
	d.stroke(drawing.Pen{Width: 0.3}, sideX, y, RailX, y)
	d.add(Near(At(sideX, y)))
}

// Near is the sign for a fixture that may blow back: the map's square for a
// fixture, larger.
func Near(at drawing.Point) drawing.Shape {
	return drawing.Mark{At: at, Symbol: drawing.Square, Size: 1.9, Pen: drawing.Pen{Width: 0.3}, Fill: &drawing.White}
}

// warn marks where to take care: a black triangle at the rail.
func (d *strip) warn(at unit.Length) {
	if at < d.From || at > d.End {
		return
	}
	y := d.Y(at)
	d.add(drawing.Path{
		Points: points([]float64{RailX - 2.2, y, RailX - 4.4, y - 1.3, RailX - 4.4, y + 1.3}), Closed: true, Fill: &drawing.Black,
	})
}

// mark draws what is at a place of the rail.
func (d *strip) mark(s Stop) {
	y := d.Y(s.At)
	at := At(RailX, y)
	switch s.Kind {
	case Opening:
		d.add(drawing.Mark{At: at, Symbol: drawing.Disc, Size: 3.2, Pen: drawing.Pen{Width: 0.7}, Fill: &drawing.White})
	case Confirm:
		d.add(drawing.Mark{At: at, Symbol: drawing.Diamond, Size: 3.4, Pen: drawing.Pen{Width: 0.6}, Fill: &drawing.White})
	case Joint:
		d.stroke(markPen, RailX-bandReach, y, RailX+bandReach, y)
	case StopMark:
		pen := drawing.Pen{Width: 0.4}
		d.stroke(pen, RailX-2.6, y-0.45, RailX+2.6, y-0.45)
		d.stroke(pen, RailX-2.6, y+0.45, RailX+2.6, y+0.45)
	case FarEnd:
		d.stroke(drawing.Pen{Width: 1.3}, RailX-2.6, y, RailX+2.6, y)
	default:
		d.add(drawing.Mark{At: at, Symbol: drawing.Disc, Size: 1.8, Pen: markPen, Fill: &drawing.White})
	}
}
