package chart

import (
	"fmt"
	"math"
	"slices"

	"linemap/internal/export/drawing"
	"linemap/internal/unit"
)

// tile is a part of a storey that has a sheet of its own.
type tile struct {
	number int // among the tiles of its storey, from 1
	sheet  int // the index of its sheet
	// window holds the nodes of the tile; what the sheet shows reaches a little
	// farther.
	window extent
}

// tileBorder is how much of its neighbours a tile shows, in millimetres.
const tileBorder = 10.0

// How many tiles a storey may have: some, more where each has many things with a
// label on it, but no more than anyone leafs through.
const (
	someTiles = 30
	mostTiles = 120
	worthTile = 60 // things with a label
)

func (st *storey) tilesAllowed() int { return max(someTiles, min(mostTiles, st.crowd/worthTile)) }

// tiled makes a page the overview of its only storey and adds the pages with
// the storey's tiles.
func tiled(over page, area drawing.Box, sys unit.System) []page {
	st := over.panels[0].st
	offer := scales(sys)
	for i, den := range offer {
		if i+1 < len(offer) && st.strained(offer[i+1]) <= square(strain) {
			continue // a smaller scale reads as well
		}
		if den >= over.panels[0].den {
			break // no gain
		}
		tiles := tilesAt(st, area, den)
		if len(tiles) > st.tilesAllowed() {
			continue
		}
		for _, larger := range slices.Backward(offer[:i]) { // for no more sheets
			more := tilesAt(st, area, larger)
			if len(more) > len(tiles) {
				break
			}
			tiles, den = more, larger
		}
		over.panels[0].index = tiles
		over.toil = st.toil(den)
		over.enlarge(area, sys)
		done := []page{over}
		for k, t := range tiles {
			t.number = k + 1
			done = append(done, page{panels: []panel{{st: st, box: area, mid: t.content(st), den: den, tile: t}}})
		}
		return done
	}
	return []page{over}
}

// enlarge draws an overview, whose labels need less room, as large as it fits.
func (p *page) enlarge(area drawing.Box, sys unit.System) {
	over := &p.panels[0]
	w, h := over.st.box.size()
	for _, den := range scales(sys) {
		if w*fullSize/den+2*padLeast <= area.W && h*fullSize/den+2*padLeast+titleHeight <= area.H {
			over.den = min(over.den, den)
			return
		}
	}
}

// tilesAt lays a grid of tiles over a storey, row by row from the north-west,
// and keeps those with something in them.
func tilesAt(st *storey, area drawing.Box, den float64) []*tile {
	w := (area.W - 2*tileBorder) * den / fullSize
	h := (area.H - titleHeight - 2*tileBorder) * den / fullSize
	sw, sh := st.box.size()
	// The upper edges of a window do not count as in it.
	nx, ny := math.Floor(sw/w)+1, math.Floor(sh/h)+1
	if nx*ny > 50*mostTiles {
		return make([]*tile, mostTiles+1) // too many
	}
	mid := st.box.middle()
	var all []*tile
	for row := range int(ny) {
		for col := range int(nx) {
			low := drawing.Point{X: mid.X + (float64(col)-nx/2)*w, Y: mid.Y + (ny/2-1-float64(row))*h}
			t := &tile{window: extent{low, low.Add(drawing.Point{X: w, Y: h})}}
			if st.inside(t.window) {
				all = append(all, t)
			}
		}
	}
	return all
}

// inside reports whether anything of a storey lies in a window.
func (st *storey) inside(e extent) bool {
	for _, p := range st.at {
		if e.holds(p) {
			return true
		}
	}
	return false
}

// content is the middle of what lies in the window.
func (t *tile) content(st *storey) drawing.Point {
	e := nowhere()
	for _, p := range st.at {
		if t.window.holds(p) {
			e.add(p)
		}
	}
	return e.middle()
}

// part is a storey cut to a tile: the nodes in its window, and the pipes that
// pass the ground that its sheet shows.
func (d *draft) part(st *storey, t *tile, ground extent) *storey {
	cut := &storey{levels: st.levels, box: t.window, main: st.main}
	in := func(node int) bool { return t.window.holds(point(d.graph.Net.Nodes[node].At)) }
	for _, n := range st.nodes {
		if in(n) {
			cut.nodes = append(cut.nodes, n)
		}
	}
	for _, p := range st.pipes {
		if len(ground.clip(d.trace(p))) > 0 {
			cut.pipes = append(cut.pipes, p)
		}
	}
	for _, r := range st.rises {
		if in(r.node) {
			cut.rises = append(cut.rises, r)
		}
	}
	for _, x := range st.exits {
		if in(x.node) {
			cut.exits = append(cut.exits, x)
		}
	}
	return cut
}

// indexes outlines the tiles on an overview.
func (sd *storeyDraft) indexes() {
	style := drawing.Style{Pt: ptHead, Bold: true, Ink: drawing.Grey}
	for _, t := range sd.index {
		lo, hi := t.window.min, t.window.max
		sd.list.Add(drawing.Notes, drawing.Path{Points: t.window.corners(), Closed: true, Pen: tilePen})
		const air = 1.0
		a, b := sd.frame.To(drawing.Point{X: lo.X, Y: hi.Y}), sd.frame.To(drawing.Point{X: hi.X, Y: lo.Y})
		a = drawing.Point{X: max(a.X, sd.box.X) + air, Y: max(a.Y, sd.box.Y+titleHeight) + air/2}
		b = drawing.Point{X: min(b.X, sd.box.Right()) - air, Y: min(b.Y, sd.box.Bottom()) - air}
		sd.heads(drawing.Box{X: a.X, Y: a.Y, W: b.X - a.X, H: b.Y - a.Y}, line{fmt.Sprintf("Sheet %d", t.sheet+1), style})
		sd.saw(sample{kind: sampleTile})
	}
}

// neighbours marks the edge of the tile and says where pipes go on that leave the tile.
func (sd *storeyDraft) neighbours(sheets []page) {
	window := &sd.tile.window
	sd.list.Add(drawing.Notes, drawing.Path{Points: window.corners(), Closed: true, Pen: tilePen})
	sd.saw(sample{kind: sampleEdge})
	for _, p := range sd.st.pipes {
		way := sd.trace(p)
		for i := 1; i < len(way); i++ {
			in, out := way[i-1], way[i]
			if window.holds(in) == window.holds(out) {
				continue
			}
			if window.holds(out) {
				in, out = out, in
			}
			_, edge, ok := window.cut(in, out)
			if other := tileAt(sheets, sd.whole, out); ok && other != nil {
				sd.around(drawing.Notes, edge, 0.8, line{fmt.Sprintf("sheet %d", other.sheet+1), styleSmall.In(drawing.Grey)})
				sd.optional(2 * dropPipe)
			}
		}
	}
}

// tileAt finds the tile of a storey that holds a place.
func tileAt(sheets []page, st *storey, p drawing.Point) *tile {
	for i := range sheets {
		if q := &sheets[i].panels[0]; q.tile != nil && q.st == st && q.tile.window.holds(p) {
			return q.tile
		}
	}
	return nil
}
