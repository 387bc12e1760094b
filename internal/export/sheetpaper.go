package export

import (
	"fmt"

	"linemap/internal/export/chart"
	"linemap/internal/export/drawing"
	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
	"linemap/internal/route"
	"linemap/internal/site"
)

// RunSheet is the crew's paper: the day, what to load, check lists and
// cautions, then every run with its settings and what the hose meets on the
// way, what stays undone, and at last room for what changed on site. It returns
// the bytes of a PDF, the same for the same input.
func RunSheet(s *site.Site, t *site.Tables, p *route.Plan, opt Options) ([]byte, error) {
	opt = opt.For(s)
	sh := newSheet(s, t, p, opt)
	doc := paper.New(opt.Paper, false, paper.Meta{
		Title: sh.Title + ": run sheet", Subject: "Run sheet for the cleaning of drains",
		Author: s.Job.Estimator, Date: s.Job.Date,
	})
	press := newPress(doc)
	press.spots = func(box drawing.Box) []drawing.Panel {
		panels, err := chart.Spots(s, p, opt.Units, box)
		if err != nil { // the map says what is wrong; a crew can do without
			return nil
		}
		return panels
	}
	press.set(sh)
	press.draw()
	doc.Footers(list("Run sheet", revision(sh.Revision), sh.Title))
	out, err := doc.Bytes()
	if err != nil {
		return nil, fmt.Errorf("run sheet: %w", err)
	}
	return out, nil
}

// newPress starts a sheet on a document that has no page yet.
func newPress(doc *paper.Doc) *press {
	body := doc.Body()
	return &press{Doc: doc, width: body.W, pages: flow.New(body.H)}
}

// set lays a sheet out.
func (p *press) set(sh *sheet) {
	p.reached, p.sys = sh.Reached, sh.sys
	p.front(sh)
	p.lists(sh)
	for i := range sh.Blocks {
		p.block(&sh.Blocks[i])
	}
	p.whys(sh.Whys)
	p.gaps("Pipe that this plan does not clean", "Not cleaned", sh.Gaps)
	p.notes(sh.Notes)
	p.changes()
}

// draw draws what is laid out.
func (p *press) draw() {
	body := p.Body()
	for _, page := range p.pages.Pages() {
		p.AddPage()
		for _, piece := range page {
			if piece.Draw != nil {
				piece.Draw(body.X, body.Y+piece.Y)
			}
		}
	}
}

// revision names a revision for a footer.
func revision(r string) string {
	if r == "" {
		return ""
	}
	return "revision " + r
}
