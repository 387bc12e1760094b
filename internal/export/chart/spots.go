package chart

import (
	"linemap/internal/export/drawing"
	"linemap/internal/export/paper"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// A map of spots: by how much it is larger than the maps that it is drawn like,
// for it is read in the hand at work; the width of the column with north and the
// scale, and the room for labels around what is drawn, in millimetres before
// that; and by how much its signs are smaller.
const (
	spotsLarger = 1.3
	spotsColumn = 30.0
	spotsPadX   = 16.0
	spotsPadY   = 3.5
	spotsThin   = 0.19
)

// fewPlaces is up to how many places each has its label on a map of spots, come
// what may.
const fewPlaces = 24

// Spots draws a small map into a box of the paper: all drains as thin lines, the
// spots of the plan with their set-ups, the water points, and the hose on the ground with the
// openings that it leads to, beside north and a scale bar. It fails only where a
// place of the site is not on Earth.
func Spots(s *site.Site, p *route.Plan, sys unit.System, box drawing.Box) ([]drawing.Panel, error) {
	if err := check(s); err != nil {
		return nil, err
	}
	rule, err := paper.NewRuler()
	if err != nil {
		return nil, err
	}
	g, _ := network.Trace(&s.Network)
	d := newDraft(s, g, p, rule, sys)
	area := drawing.Box{W: box.W/spotsLarger - spotsColumn, H: box.H / spotsLarger}
	sd, den := d.spotsDraft(area)
	sd.drains()
	lays := len(sd.notes)
	sd.lays()
	for i := lays; i < len(sd.notes); i++ {
		sd.notes[i].optional, sd.notes[i].drop = true, dropStack
	}
	places := len(sd.notes)
	sd.waters()
	sd.spots()
	for i := places; i < len(sd.notes) && len(sd.notes)-places > fewPlaces; i++ {
		sd.notes[i].optional, sd.notes[i].drop = true, dropStack
	}
	sd.place()

	col := &side{draft: d, box: drawing.Box{X: area.Right() + 2, Y: 0.5, W: spotsColumn - 2}, y: 0.5}
	col.rect(area, framePen, nil)
	col.north()
	col.y += 15
	col.bar(col.box.X+0.5, sd.den, scaleText(sys, den), col.box.W-6)
	corner := drawing.Point{X: box.X, Y: box.Y}
	return []drawing.Panel{
		drawing.Panel{Frame: sd.frame, Clip: &area, List: sd.list}.Enlarged(spotsLarger, corner),
		drawing.Panel{List: col.list}.Enlarged(spotsLarger, corner),
	}, nil
}

// spotsDraft is a map of spots with nothing on it yet: the drains of all levels
// as one, at the largest scale at which they have room for labels around. It
// returns the denominator of the scale at which it is printed, too.
func (d *draft) spotsDraft(area drawing.Box) (*storeyDraft, float64) {
	st := &storey{box: nowhere(), main: true} // no level: each opening is named where its hose ends
	for p := range d.graph.Net.Pipes {
		if joined(d.graph, p) {
			st.pipes = append(st.pipes, p)
			st.box.join(extentOf(d.trace(p)))
		}
	}
	d.widen(&st.box)
	sd := &storeyDraft{draft: d, whole: st, untitled: true, usedOnly: true, thinner: spotsThin}
	sd.panel = panel{st: st, box: area, mid: st.box.middle()}
	w, h := st.box.size()
	printed := 0.0
	for _, den := range scales(d.sys) {
		printed, sd.den = den, den*spotsLarger
		if w*fullSize/sd.den <= area.W-2*spotsPadX && h*fullSize/sd.den <= area.H-2*spotsPadY {
			break
		}
	}
	sd.frame = drawing.Frame{
		Ground: sd.mid, Paper: drawing.Point{X: area.X + area.W/2, Y: area.Y + area.H/2}, Scale: fullSize / sd.den,
	}
	sd.tile = &tile{window: sd.ground(area.Inset(spotSize / 2))}
	sd.here = make([]bool, len(d.graph.Net.Pipes))
	d.seen, d.shown = map[sample]bool{}, map[string]bool{}
	return sd, printed
}

// drains draws all pipes as thin lines, and where the water leaves.
func (sd *storeyDraft) drains() {
	for _, p := range sd.st.pipes {
		pen := thinPen
		if sd.graph.Net.Pipes[p].OutOfJob {
			pen.Ink = drawing.Pale
		}
		line := sd.trace(p)
		sd.list.Add(drawing.Drains, drawing.Path{Points: line, Pen: pen})
		sd.wallLine(line, pen.Width/2, overLay, overLayMM)
	}
	for n := range sd.graph.Net.Nodes {
		if node := &sd.graph.Net.Nodes[n]; node.Kind == network.KindOutlet {
			at := point(node.At)
			sd.list.Add(drawing.Drains, drawing.Mark{At: at, Symbol: drawing.Wedge, Size: outletSize, Turn: sd.flow(n), Fill: ink(drawing.Black)})
			sd.wallMark(at, outletSize/2)
		}
	}
}
