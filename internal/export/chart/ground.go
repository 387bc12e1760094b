package chart

import (
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/site"
)

// grounded lists the places on the ground that the plan uses: its spots, the
// water points that fill there, the openings run from them and the ways of the
// hoses between.
func (d *draft) grounded() []drawing.Point {
	var all []drawing.Point
	for _, b := range d.plan.Blocks {
		spot := d.spot(b.Spot)
		if spot == nil {
			continue
		}
		all = append(all, point(spot.At))
		if _, w := d.site.Inflow(spot); w != nil {
			all = append(all, points(d.site.SupplyPath(spot, w))...)
		}
		for _, r := range b.Runs {
			if n, ok := d.graph.NodeIndex(r.Access); ok {
				all = append(all, points(d.site.LayPath(spot, &d.graph.Net.Nodes[n]))...)
			}
		}
	}
	return all
}

// widen grows the main storey's extent to the places that the plan uses. With
// no run yet, all spots and water points count.
func (d *draft) widen(e *extent) {
	for _, p := range d.grounded() {
		e.add(p)
	}
	if len(d.plan.Blocks) == 0 {
		for i := range d.site.Spots {
			e.add(point(d.site.Spots[i].At))
		}
		for i := range d.site.Water {
			e.add(point(d.site.Water[i].At))
		}
	}
	if w, _ := e.size(); w < 0 {
		e.add(drawing.Point{})
	}
}

// offNote names, at the foot of the panel, the spots and water points that lie
// off the plan.
func (sd *storeyDraft) offNote() {
	if sd.tile != nil {
		return
	}
	var names []string
	for i := range sd.site.Spots {
		if s := &sd.site.Spots[i]; !sd.room().holds(point(s.At)) {
			names = append(names, spotName(s)+" (spot)")
		}
	}
	for i := range sd.site.Water {
		if w := &sd.site.Water[i]; !sd.room().holds(point(w.At)) {
			names = append(names, waterName(w))
		}
	}
	if len(names) == 0 {
		return
	}
	var lines []line
	for _, s := range sd.rule.Wrap("Off this plan, not used: "+strings.Join(names, ", "), false, ptSmall, min(widest, sd.box.W-4)) {
		lines = append(lines, line{s, styleSmall})
	}
	h := float64(len(lines)) * mm(ptSmall)
	sd.fixed(drawing.Point{X: sd.box.X + 1.8, Y: sd.box.Bottom() - h - 1.4}, lines...)
}

// room is the ground of the panel's own, less a border for the symbols.
func (sd *storeyDraft) room() *extent {
	if sd.board != nil {
		return &sd.st.box
	}
	if sd.tile != nil {
		return &sd.tile.window
	}
	b := sd.box.Inset(6)
	b.Y, b.H = b.Y+titleHeight, b.H-titleHeight
	e := sd.ground(b)
	return &e
}

// ground is what lies under a box of the paper.
func (sd *storeyDraft) ground(b drawing.Box) extent {
	return extent{
		sd.frame.From(drawing.Point{X: b.X, Y: b.Bottom()}), sd.frame.From(drawing.Point{X: b.Right(), Y: b.Y}),
	}
}

func (d *draft) spot(id site.SpotID) *site.Spot {
	for i := range d.site.Spots {
		if d.site.Spots[i].ID == id {
			return &d.site.Spots[i]
		}
	}
	return nil
}

func spotName(s *site.Spot) string {
	if s.Label != "" {
		return s.Label
	}
	return string(s.ID)
}

func waterName(w *site.WaterPoint) string {
	if w.Label != "" {
		return lettered(w.Kind.Letters(), w.Label)
	}
	return lettered(w.Kind.Letters(), string(w.ID))
}
