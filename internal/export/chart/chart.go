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
	// Pictures gives the floor plans. It may be nil.
	Pictures Pictures
	// Done, where set, makes it a map of what was done.
	Done *Done
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
	d.pictures, d.tints = opt.Pictures, d.ribbons()
	d.done = opt.Done
	size := paper.SizeOf(opt.Paper, true)
	page := drawing.Box{W: size.W, H: size.H}.Inset(paper.Margin)
	foot := &side{draft: d, box: page}
	page.H -= foot.safety(opt.Safety)
	area := drawing.Box{X: page.X, Y: page.Y, W: page.W - sideWidth - sideGap, H: page.H}

	sheets, err := d.pages(area)
	if err != nil {
		return nil, err
	}
	ratio := sheets[0].panels[0].den
	c := &Chart{Scale: scaleText(opt.Units, ratio), Ratio: ratio}
	var panels []*storeyDraft
	for i, pg := range sheets {
		d.seen, d.shown = map[sample]bool{}, map[string]bool{}
		sheet := &drawing.Sheet{W: size.W, H: size.H}
		c.Marks = append(c.Marks, Mark{Title: sheetName(i, len(sheets)), Sheet: i})
		for _, pn := range pg.panels {
			c.Marks = append(c.Marks, Mark{pn.name(), 1, i, pn.box.Y})
			panels = append(panels, d.panel(pn, sheets))
		}
		col := &side{draft: d, box: drawing.Box{X: area.Right() + sideGap, Y: page.Y, W: sideWidth, H: page.H}, y: page.Y, sheet: i}
		col.column(opt, pg, len(sheets))
		c.Marks = append(c.Marks, col.marks...)
		col.frames(pg, area)
		sheet.Panels = append(sheet.Panels, drawing.Panel{List: col.list}, drawing.Panel{List: foot.list})
		c.Sheets = append(c.Sheets, sheet)
	}
	c.Dropped = placeAll(panels)
	for i, pg := range sheets {
		var drawn []drawing.Panel
		for range pg.panels {
			drawn, panels = append(drawn, panels[0].drawn()), panels[1:]
		}
		c.Sheets[i].Panels = append(drawn, c.Sheets[i].Panels...)
	}
	return c, nil
}

func sheetName(i, of int) string {
	if of == 1 {
		return "Map"
	}
	return fmt.Sprintf("Map, sheet %d of %d", i+1, of)
}

// column sets the side column from top to bottom. The tables list what the
// sheet shows; an overview lists everything.
func (c *side) column(opt Options, pg page, of int) {
	c.bars(pg)
	c.legendTable(c.legend())
	bottom := c.titleBlock(opt, pg.panels[0].den, of) - 1
	all := pg.panels[0].index != nil
	c.shortfallTable(bottom, all)
	c.runTable(bottom, all)
}

// frames draws the panels' borders and titles; a site without levels needs
// none.
func (c *side) frames(pg page, area drawing.Box) {
	for _, pn := range pg.panels {
		b := pn.box
		c.rect(b, framePen, nil)
		title := pn.name()
		if title == plainName && len(pg.panels) == 1 {
			continue
		}
		if pn.den != pg.panels[0].den {
			title += "  " + scaleText(c.sys, pn.den)
		}
		if pn.tile != nil {
			c.line(b.X, b.Y+titleHeight, b.Right(), b.Y+titleHeight, framePen)
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
	for _, n := range s.Notes {
		if !finite(n.At.X, n.At.Y) {
			return bad("note", string(n.ID), n.At.X, n.At.Y)
		}
	}
	for _, a := range s.Areas {
		for _, v := range a.Outline {
			if !finite(v.X, v.Y) {
				return bad("area", string(a.ID), v.X, v.Y)
			}
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
