package export

import (
	"errors"
	"fmt"

	"linemap/internal/export/chart"
	"linemap/internal/export/paper"
	"linemap/internal/route"
	"linemap/internal/site"
)

// errNoVisit says what a report needs.
var errNoVisit = errors.New("the site has no visit yet: type in what the crew wrote down, or take the results table in")

// Report is the owner's paper after the job: what was done and found, what is
// left and why, when to come back, the history of visits, the map as cleaned and
// photos. It tells of the last visit, with those before it from the day of the
// job on. It returns the bytes of a PDF, the same for the same input, and an
// error where the site has no visit.
func Report(s *site.Site, t *site.Tables, p *route.Plan, opt Options) ([]byte, error) {
	if err := lacksVisit(s); err != nil {
		return nil, fmt.Errorf("report: %w", err)
	}
	opt = opt.For(s)
	w := reportOf(s, t, p, opt.Units)
	sh := newReportSheet(w)
	doc := paper.New(opt.Paper, false, paper.Meta{
		Title: sh.Title + ": report", Subject: "Report on the cleaning of drains",
		Author: s.Job.Estimator, Date: w.visits[len(w.visits)-1].Date,
	})
	press := newPress(doc)
	press.report(sh)
	press.history(sh.History)
	press.draw()
	if err := w.addMap(doc, opt); err != nil {
		return nil, fmt.Errorf("report: %w", err)
	}
	if len(sh.Photos) > 0 {
		press = newPress(doc)
		press.photos(sh.Photos, opt.Folder)
		press.draw()
	}
	doc.Footers(list("Report", revision(sh.Revision), sh.Title))
	out, err := doc.Bytes()
	if err != nil {
		return nil, fmt.Errorf("report: %w", err)
	}
	return out, nil
}

// addMap adds the map as cleaned.
func (w *work) addMap(doc *paper.Doc, opt Options) error {
	plan, done := w.asCleaned()
	c, err := chart.Draw(w.site, plan, chart.Options{
		Paper: opt.Paper, Units: opt.Units, Date: day(opt.Units, w.visits[len(w.visits)-1].Date),
		Pictures: pictures(opt.Folder), Done: done,
	})
	if err != nil {
		return err
	}
	for i, sheet := range c.Sheets {
		doc.AddSheet(sheet)
		for _, m := range c.Marks {
			if m.Sheet == i {
				doc.Bookmark(m.Title, m.Level, m.Y)
			}
		}
	}
	return nil
}
