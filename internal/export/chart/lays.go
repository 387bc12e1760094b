package chart

import (
	"math"
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
	ends := &layEnds{}
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
			if !sd.sees(path) {
				continue
			}
			sd.list.Add(drawing.Lays, drawing.Path{Points: path, Pen: layPen})
			sd.wallLine(path, 0.3, overLay, overLayMM)
			sd.saw(sample{kind: sampleLay})
			sd.elsewhere(node, ends)
		}
		sd.supply(spot, drawn)
	}
	sd.upstairs(ends)
}

// layEnds gathers the ends of lays to openings on other storeys, which often
// lie above each other.
type layEnds struct {
	at    []drawing.Point
	names [][]string
}

// sharing is how near to each other, on paper in millimetres, two ends share
// a label.
const sharing = 2.5

// elsewhere notes the end of a lay to an opening on another storey.
func (sd *storeyDraft) elsewhere(node *network.Node, ends *layEnds) {
	if sd.whole.has(node.Level) || !sd.inTile(point(node.At)) {
		return
	}
	at, name := point(node.At), sd.label(node)
	for i, p := range ends.at {
		if d := at.Sub(p).Scale(sd.frame.Scale); math.Hypot(d.X, d.Y) < sharing {
			ends.names[i] = append(ends.names[i], name)
			return
		}
	}
	ends.at, ends.names = append(ends.at, at), append(ends.names, []string{name})
}

// upstairs marks the ends of lays to other storeys.
func (sd *storeyDraft) upstairs(ends *layEnds) {
	const most = 30 // millimetres of one line
	style := drawing.Style{Pt: ptSmall}
	for i, at := range ends.at {
		sd.list.Add(drawing.Lays, drawing.Mark{At: at, Symbol: drawing.Diamond, Size: 1.8, Pen: thinPen, Fill: ink(drawing.White)})
		sd.wallMark(at, 0.9)
		var lines []line
		for _, s := range sd.rule.Wrap("to "+strings.Join(ends.names[i], ", "), false, ptSmall, most) {
			lines = append(lines, line{s, style})
		}
		sd.around(drawing.Notes, at, 0.9, lines...)
		sd.saw(sample{kind: sampleUpstairs})
	}
}

// inTile reports whether a place is on the panel's own part of the storey.
func (sd *storeyDraft) inTile(p drawing.Point) bool {
	if sd.board != nil {
		return sd.st.box.holds(p)
	}
	return sd.tile == nil || sd.tile.window.holds(p)
}

// supply draws the hose that fills the tank at a spot.
func (sd *storeyDraft) supply(spot *site.Spot, drawn map[string]bool) {
	_, water := sd.site.Inflow(spot)
	if water == nil || drawn["water\x00"+string(spot.ID)] {
		return
	}
	drawn["water\x00"+string(spot.ID)] = true
	path := points(sd.site.SupplyPath(spot, water))
	if !sd.sees(path) {
		return
	}
	sd.list.Add(drawing.Lays, drawing.Path{Points: path, Pen: supplyPen})
	sd.wallLine(path, 0.3, overLay, overLayMM)
	sd.saw(sample{kind: sampleSupply})
}

// spots draws where the trailer stands, in the order of the day.
func (sd *storeyDraft) spots() {
	bold := drawing.Style{Pt: ptName, Bold: true}
	plain := drawing.Style{Pt: ptSmall}
	for i := range sd.site.Spots {
		spot := &sd.site.Spots[i]
		at := point(spot.At)
		if !sd.room().holds(at) {
			continue
		}
		stays := sd.visits[spot.ID]
		if sd.usedOnly && len(stays) == 0 && len(sd.plan.Blocks) > 0 {
			continue
		}
		size := spotSize * sd.weight()
		m := drawing.Mark{At: at, Symbol: drawing.Plate, Size: size, Pen: thinPen, Fill: ink(drawing.White)}
		lines := []line{{spotName(spot), plain}}
		if len(sd.plan.Blocks) > 0 {
			lines = append(lines, line{"not used", plain})
		}
		kind := sampleSpareSpot
		if len(stays) > 0 {
			m.Fill, kind = ink(drawing.Black), sampleSpot
			lines = []line{{"Set-up " + numbers(stays), bold}, {spotName(spot), plain}}
		}
		if sd.sketchy() {
			lines = lines[:1]
		}
		sd.list.Add(drawing.Lays, m)
		if s := numbers(stays); s != "" && sd.weight() > 0.8 && sd.rule.Width(s, true, ptName) < spotSize-1 {
			sd.list.Add(drawing.Lays, drawing.Text{
				At: at, Off: drawing.Point{Y: capital(ptName) / 2}, S: s, Wide: sd.rule.Width(s, true, ptName),
				Style: bold.In(drawing.White).Set(drawing.Centre),
			})
		}
		p := sd.frame.To(at)
		sd.walls = append(sd.walls, flat(p, size/4))
		sd.saw(sample{kind: kind})
		sd.around(drawing.Notes, at, size/2, lines...)
		sd.spare()
	}
}

// waters draws where the water comes from.
func (sd *storeyDraft) waters() {
	bold := drawing.Style{Pt: ptName, Bold: true}
	plain := drawing.Style{Pt: ptSmall}
	used := sd.sources()
	for i := range sd.site.Water {
		w := &sd.site.Water[i]
		at := point(w.At)
		if !sd.room().holds(at) {
			continue
		}
		fill := drawing.White
		style := plain
		if used[w.ID] {
			fill, style = drawing.Black, bold
		}
		sd.list.Add(drawing.Lays, drawing.Mark{At: at, Symbol: drawing.Diamond, Size: waterSize, Pen: thinPen, Fill: ink(fill)})
		sd.wallMark(at, waterSize/2)
		sd.saw(sample{kind: sampleWater, water: w.Kind})
		sd.around(drawing.Notes, at, waterSize/2, line{waterName(w), style})
		sd.spare()
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

// numbers lists small numbers: "1, 3".
func numbers(n []int) string {
	words := make([]string, len(n))
	for i, v := range n {
		words[i] = strconv.Itoa(v)
	}
	return strings.Join(words, ", ")
}
