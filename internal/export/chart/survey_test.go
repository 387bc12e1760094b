package chart

import (
	"math"
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/export/paper"
)

// lettered is a text or a symbol of a panel with the box it takes on paper.
type piece struct {
	text   string // empty for a symbol
	at     drawing.Point
	centre drawing.Point
	w, h   float64
	turn   float64
}

// pieces reads a panel's texts and symbols back. Small symbols that belong to
// a line (flow arrows, junction dots, the points of ribbons) may be covered and
// are left out.
func pieces(p *drawing.Panel) []piece {
	var all []piece
	for _, it := range p.Items {
		switch s := it.Shape.(type) {
		case drawing.Text:
			em := s.Style.Pt * paper.MMPerPoint
			at := p.Frame.To(s.At).Add(s.Off)
			x := map[drawing.Align]float64{drawing.Left: s.Wide / 2, drawing.Right: -s.Wide / 2}[s.Style.Align]
			sin, cos := math.Sincos(s.Turn)
			y := capital(s.Style.Pt) / 2 // above the baseline
			all = append(all, piece{
				text: s.S, at: p.Frame.To(s.At), turn: s.Turn, w: s.Wide, h: 0.9 * em,
				centre: drawing.Point{X: at.X + x*cos - y*sin, Y: at.Y - x*sin - y*cos},
			})
		case drawing.Mark:
			if s.Symbol == drawing.Pointer || s.Symbol == drawing.Wedge || s.Size < 1.2 {
				continue
			}
			at := p.Frame.To(s.At).Add(s.Off)
			h := s.Size
			if s.Symbol == drawing.Plate {
				h /= 2
			}
			all = append(all, piece{at: p.Frame.To(s.At), centre: at, w: s.Size + s.Longer, h: h})
		}
	}
	return all
}

// holds reports whether the piece covers a place of the paper.
func (p piece) holds(q drawing.Point) bool {
	d := q.Sub(p.centre)
	sin, cos := math.Sincos(p.turn)
	return math.Abs(d.X*cos-d.Y*sin) <= p.w/2 && math.Abs(d.X*sin+d.Y*cos) <= p.h/2
}

// overlaps lists the pairs of pieces of a panel that share paper, found by
// looking at every point of a fine raster, apart from how labels are placed. A
// badge's text lies on its own symbol, and symbols may touch each other.
func overlaps(p *drawing.Panel) []string {
	const step = 0.2
	owner := map[[2]int]int{}
	all := pieces(p)
	pairs := map[string]bool{}
	var found []string
	for i, a := range all {
		r := math.Hypot(a.w, a.h) / 2
		for x := int((a.centre.X - r) / step); x <= int((a.centre.X+r)/step); x++ {
			for y := int((a.centre.Y - r) / step); y <= int((a.centre.Y+r)/step); y++ {
				if !a.holds(drawing.Point{X: float64(x) * step, Y: float64(y) * step}) {
					continue
				}
				key := [2]int{x, y}
				j, ok := owner[key]
				owner[key] = i
				if !ok || (all[j].text == "" && a.text == "") || all[j].at == a.at && (all[j].text == "" || a.text == "") {
					continue
				}
				pair := strings.TrimSpace(all[j].text + " | " + a.text)
				if !pairs[pair] {
					pairs[pair] = true
					found = append(found, pair)
				}
			}
		}
	}
	return found
}

// panels lists the panels of all sheets.
func panels(c *Chart) []drawing.Panel {
	var all []drawing.Panel
	for _, s := range c.Sheets {
		all = append(all, s.Panels...)
	}
	return all
}

// texts lists everything that a map says.
func texts(c *Chart) []string {
	var all []string
	for _, p := range panels(c) {
		for _, it := range p.Items {
			if t, ok := it.Shape.(drawing.Text); ok {
				all = append(all, t.S)
			}
		}
	}
	return all
}
