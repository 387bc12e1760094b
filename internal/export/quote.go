package export

import (
	"fmt"

	"linemap/internal/export/paper"
	"linemap/internal/route"
	"linemap/internal/site"
)

// Quote is the customer's paper: what the job costs line by line with the
// source of each quantity in the plan, the range of hours and total, what is
// included and what is not, terms, and lines to sign. It returns the bytes of a
// PDF, the same for the same input. Where the site has no prices it returns an
// error that wraps [quote.ErrNoPrices] and names what is missing.
func Quote(s *site.Site, t *site.Tables, p *route.Plan, opt Options) ([]byte, error) {
	opt = opt.For(s)
	q, err := newQuoteSheet(s, t, p, opt)
	if err != nil {
		return nil, fmt.Errorf("quote: %w", err)
	}
	doc := paper.New(opt.Paper, false, paper.Meta{
		Title: q.Title + ": quote", Subject: "Quote for the cleaning of drains",
		Author: s.Job.Estimator, Date: s.Job.Date,
	})
	press := newPress(doc)
	press.quote(q)
	press.draw()
	doc.Footers(list("Quote", revision(q.Revision), q.Title))
	out, err := doc.Bytes()
	if err != nil {
		return nil, fmt.Errorf("quote: %w", err)
	}
	return out, nil
}
