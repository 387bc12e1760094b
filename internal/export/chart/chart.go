package chart

import (
	"fmt"

	"linemap/internal/export/drawing"
	"linemap/internal/export/paper"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Options say how a map is made.
type Options struct {
	Paper site.Paper
	Units unit.System
	// Date is the day of the job in finished words.
	Date string
	// Safety stands along the foot of the page.
	Safety string
}

// Chart is a map, ready to paint: one page, or several for a tower.
type Chart struct {
	Sheets []*drawing.Sheet
	// Scale is the scale of the main plan in words, Ratio its denominator.
	Scale string
	Ratio float64
	// Marks are the places that an outline of the document leads to.
	Marks []Mark
	// Dropped counts pipe labels left out for want of room.
	Dropped int
}

// Mark is a place of the map: the index of its sheet, and how many millimetres
// down it is. Level 0 is a sheet itself.
type Mark struct {
	Title string
	Level int
	Sheet int
	Y     float64
}

// Widths of the page's parts in millimetres.
const (
	sideWidth = 68.0
	sideGap   = 4.0
)

// Draw draws the map of a site and its plan. A nil plan gives the drain alone.
// It fails only where a place of the site is not on Earth.
func Draw(s *site.Site, p *route.Plan, opt Options) (*Chart, error) {
	if err := check(s); err != nil {
		return nil, err
	}
	rule, err := paper.NewRuler()
	if err != nil {
		return nil, err
	}
	if p == nil {
		p = &route.Plan{}
	}
	g, _ := network.Trace(&s.Network)
	d := newDraft(s, g, p, rule, opt.Units)
	size := paper.SizeOf(opt.Paper, true)
	page := drawing.Box{W: size.W, H: size.H}.Inset(paper.Margin)
	foot := &side{draft: d, box: page}
	page.H -= foot.safety(opt.Safety)
	area := drawing.Box{X: page.X, Y: page.Y, W: page.W - sideWidth - sideGap, H: page.H}

	all := storeys(g)
	if len(all) == 0 { // nothing drawn yet: an empty plan, with its spots
		all = []*storey{{levels: []network.Level{{}}, box: nowhere(), main: true}}
	}
	ground(&all[0].box, g, s, p)
	lays, err := pages(all, area, opt.Units)
	if err != nil {
		return nil, err
	}
	ratio := lays[0].dens[0]
	c := &Chart{Scale: scaleText(opt.Units, ratio), Ratio: ratio}
	for i, lay := range lays {
		d.seen = map[sample]bool{}
		sheet := &drawing.Sheet{W: size.W, H: size.H}
		c.Marks = append(c.Marks, Mark{Title: sheetName(i, len(lays)), Sheet: i})
		for k, st := range lay.storeys {
			c.Marks = append(c.Marks, Mark{st.name(), 1, i, lay.boxes[k].Y})
			sheet.Panels = append(sheet.Panels, d.storey(st, lay.boxes[k], lay.dens[k]))
		}
		col := &side{draft: d, box: drawing.Box{X: area.Right() + sideGap, Y: page.Y, W: sideWidth, H: page.H}, y: page.Y, sheet: i}
		col.column(opt, lay, len(lays))
		c.Marks = append(c.Marks, col.marks...)
		col.frames(lay, area, len(all) > 1)
		sheet.Panels = append(sheet.Panels, drawing.Panel{List: col.list}, drawing.Panel{List: foot.list})
		c.Sheets = append(c.Sheets, sheet)
	}
	c.Dropped = d.dropped
	return c, nil
}

func sheetName(i, of int) string {
	if of == 1 {
		return "Map"
	}
	return fmt.Sprintf("Map, sheet %d of %d", i+1, of)
}

// column sets the side column from top to bottom. The tables stand on the
// first sheet.
func (c *side) column(opt Options, lay layout, of int) {
	c.bars(lay.dens)
	c.legendTable(c.legend())
	bottom := c.titleBlock(opt, lay.dens[0], of) - 1
	if c.sheet == 0 {
		c.shortfallTable(bottom)
		c.runTable(bottom)
	}
}

// frames draws the panels' borders and, where there are several, their titles.
func (c *side) frames(lay layout, area drawing.Box, titles bool) {
	for i, st := range lay.storeys {
		b := lay.boxes[i]
		c.rect(b, framePen, nil)
		title := st.name()
		if title == plainName && !titles {
			continue
		}
		if lay.dens[i] != lay.dens[0] {
			title += "  " + scaleText(c.sys, lay.dens[i])
		}
		c.text(b.X+1.8, b.Y+1.6+capital(ptHead), c.rule.Fit(title, true, ptHead, b.W-3.6), drawing.Style{Pt: ptHead, Bold: true})
	}
	c.rect(area, drawing.Pen{Width: 0.4}, nil)
}

// safety sets the foot of the page and returns the height it takes.
func (c *side) safety(s string) float64 {
	if s == "" {
		return 0
	}
	h := c.height(s, styleSmall, c.box.W)
	c.paragraph(c.box.X, c.box.Bottom()-h, c.box.W, s, styleSmall)
	return h + 1.5
}

// ground widens the main storey's extent to everything drawn on the ground.
func ground(e *extent, g *network.Graph, s *site.Site, p *route.Plan) {
	for i := range s.Spots {
		e.add(point(s.Spots[i].At))
	}
	for i := range s.Water {
		e.add(point(s.Water[i].At))
	}
	used := map[site.SpotID]bool{}
	for _, b := range p.Blocks {
		used[b.Spot] = true
		for _, r := range b.Runs { // on another storey, the lay still ends here
			if n, ok := g.NodeIndex(r.Access); ok {
				e.add(point(s.Network.Nodes[n].At))
			}
		}
	}
	for i := range s.Lays {
		for _, v := range s.Lays[i].Via {
			if used[s.Lays[i].Spot] {
				e.add(point(v))
			}
		}
	}
	if w, _ := e.size(); w < 0 {
		e.add(drawing.Point{})
	}
}

// check refuses places that cannot be put on paper.
func check(s *site.Site) error {
	bad := func(what, name string, x, y unit.Length) error {
		return fmt.Errorf("map: %s %q lies at %g, %g m, which is not on the site", what, name, x.Metres(), y.Metres())
	}
	for _, n := range s.Network.Nodes {
		if !finite(n.At.X, n.At.Y) {
			return bad("node", string(n.ID), n.At.X, n.At.Y)
		}
	}
	for _, p := range s.Network.Pipes {
		for _, v := range p.Via {
			if !finite(v.X, v.Y) {
				return bad("pipe", string(p.ID), v.X, v.Y)
			}
		}
	}
	for _, sp := range s.Spots {
		if !finite(sp.At.X, sp.At.Y) {
			return bad("spot", string(sp.ID), sp.At.X, sp.At.Y)
		}
	}
	for _, w := range s.Water {
		if !finite(w.At.X, w.At.Y) {
			return bad("water point", string(w.ID), w.At.X, w.At.Y)
		}
	}
	for _, l := range s.Lays {
		for _, v := range l.Via {
			if !finite(v.X, v.Y) {
				return bad("lay from spot", string(l.Spot), v.X, v.Y)
			}
		}
	}
	return nil
}
