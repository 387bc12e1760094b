package export

import (
	"linemap/internal/export/drawing"
	"linemap/internal/export/flow"
	"linemap/internal/export/linestrip"
	"linemap/internal/route"
)

// stripKey says once what the strips of the runs show: every sign with its
// words, on as few lines as they fit on.
func (p *press) stripKey() flow.Piece {
	const apart, gap, rowHeight = 3.6, 1.2, 7.6
	type placed struct {
		linestrip.Sample
		x, y float64
	}
	var all []placed
	x, y := 0.0, 0.0
	for _, s := range linestrip.Key(mark(p.sys), p.sys.Length(route.BlowBackReach())) {
		wide := s.Right - s.Left + gap + p.Width(s.Name, false, labelPt)
		if x > 0 && x+wide > p.width {
			x, y = 0, y+rowHeight
		}
		all = append(all, placed{s, x, y})
		x += wide + apart
	}
	head := height(1, leadStyle) + 1
	return flow.Piece{Height: head + y + rowHeight + 2, Draw: func(x0, y0 float64) {
		p.text(x0, y0, []string{"Line strips: to scale by the hose counter, from the reel down to the far end"}, leadStyle)
		var panels []drawing.Panel
		for _, s := range all {
			panels = append(panels, drawing.Panel{Frame: linestrip.Frame(x0+s.x-s.Left, y0+head+s.y), List: s.List})
		}
		p.Paint(&drawing.Sheet{Panels: panels})
		for _, s := range all {
			p.text(x0+s.x+s.Right-s.Left+gap, y0+head+s.y+(linestrip.KeyHeight-height(1, labelStyle))/2, []string{s.Name}, labelStyle.In(drawing.Black))
		}
	}}
}
