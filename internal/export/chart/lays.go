package chart

import (
	"strconv"
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/site"
)

// lays draws the hose on the ground: from each stay to the openings run from
// there, and from the water point that fills the tank.
func (sd *storeyDraft) lays() {
	drawn := map[string]bool{}
	for _, b := range sd.plan.Blocks {
		spot := sd.spot(b.Spot)
		if spot == nil {
			continue
		}
		for _, r := range b.Runs {
			key := string(b.Spot) + "\x00" + string(r.Access)
			n, ok := sd.graph.NodeIndex(r.Access)
			if !ok || drawn[key] {
				continue
			}
			drawn[key] = true
			node := &sd.graph.Net.Nodes[n]
			path := points(sd.site.LayPath(spot, node))
			sd.list.Add(drawing.Lays, drawing.Path{Points: path, Pen: layPen})
			sd.wallLine(path, 0.3, overLay, overLayMM)
			sd.seen[sample{kind: sampleLay}] = true
			sd.elsewhere(n, node)
		}
		sd.supply(spot, drawn)
	}
}

// elsewhere marks the end of a lay to an opening on another storey.
func (sd *storeyDraft) elsewhere(n int, node *network.Node) {
	for _, here := range sd.st.nodes {
		if here == n {
			return
		}
	}
	at := point(node.At)
	sd.list.Add(drawing.Lays, drawing.Mark{At: at, Symbol: drawing.Diamond, Size: 1.8, Pen: thinPen, Fill: ink(drawing.White)})
	sd.wallMark(at, 0.9)
	where := sd.label(node)
	if node.Level != "" {
		where += ", " + node.Level
	}
	sd.around(drawing.Notes, at, 0.9, line{"to " + where, drawing.Style{Pt: ptSmall}})
}

// supply draws the hose that fills the tank at a spot.
func (sd *storeyDraft) supply(spot *site.Spot, drawn map[string]bool) {
	_, water := sd.site.Inflow(spot)
	if water == nil || drawn["water\x00"+string(spot.ID)] {
		return
	}
	drawn["water\x00"+string(spot.ID)] = true
	path := points(sd.site.SupplyPath(spot, water))
	sd.list.Add(drawing.Lays, drawing.Path{Points: path, Pen: supplyPen})
	sd.wallLine(path, 0.3, overLay, overLayMM)
	sd.seen[sample{kind: sampleSupply}] = true
}

// spots draws where the trailer stands, in the order of the day, and where the
// water comes from.
func (sd *storeyDraft) spots() {
	bold := drawing.Style{Pt: ptName, Bold: true}
	plain := drawing.Style{Pt: ptSmall}
	for i := range sd.site.Spots {
		spot := &sd.site.Spots[i]
		at := point(spot.At)
		stays := sd.visits[spot.ID]
		m := drawing.Mark{At: at, Symbol: drawing.Plate, Size: spotSize, Pen: thinPen, Fill: ink(drawing.White)}
		lines := []line{{spotName(spot), plain}, {"not used", plain}}
		kind := sampleSpareSpot
		if len(stays) > 0 {
			m.Fill, kind = ink(drawing.Black), sampleSpot
			lines = []line{{"Set-up " + numbers(stays), bold}, {spotName(spot), plain}}
		}
		sd.list.Add(drawing.Lays, m)
		p := sd.frame.To(at)
		sd.walls = append(sd.walls, flat(p, spotSize/4))
		sd.seen[sample{kind: kind}] = true
		sd.around(drawing.Notes, at, spotSize/2, lines...)
	}
	used := sd.sources()
	for i := range sd.site.Water {
		w := &sd.site.Water[i]
		at := point(w.At)
		fill := drawing.White
		style := plain
		if used[w.ID] {
			fill, style = drawing.Black, bold
		}
		sd.list.Add(drawing.Lays, drawing.Mark{At: at, Symbol: drawing.Diamond, Size: waterSize, Pen: thinPen, Fill: ink(fill)})
		sd.wallMark(at, waterSize/2)
		sd.seen[sample{kind: sampleWater, water: w.Kind}] = true
		name := w.Label
		if name == "" {
			name = string(w.ID)
		}
		sd.around(drawing.Notes, at, waterSize/2, line{lettered(waterLetters[w.Kind], name), style})
	}
}

// sources are the water points that the plan fills from.
func (sd *storeyDraft) sources() map[site.WaterID]bool {
	used := map[site.WaterID]bool{}
	for _, b := range sd.plan.Blocks {
		if spot := sd.spot(b.Spot); spot != nil {
			if _, w := sd.site.Inflow(spot); w != nil {
				used[w.ID] = true
			}
		}
	}
	return used
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

// numbers lists small numbers: "1, 3".
func numbers(n []int) string {
	words := make([]string, len(n))
	for i, v := range n {
		words[i] = strconv.Itoa(v)
	}
	return strings.Join(words, ", ")
}

func points(line []network.Point) []drawing.Point {
	pts := make([]drawing.Point, len(line))
	for i, p := range line {
		pts[i] = point(p)
	}
	return pts
}
