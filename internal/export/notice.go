package export

import (
	"fmt"

	"linemap/internal/export/paper"
	"linemap/internal/route"
	"linemap/internal/site"
)

// Notice is the paper that the property manager posts: when the drains are
// cleaned, which rooms must be open and when, when no water may go down which
// drain, where not to park, what to expect and whom to call. Its times are the
// plan's. It stands on one page where that can be read from a step away. It
// returns the bytes of a PDF, the same for the same input.
func Notice(s *site.Site, t *site.Tables, p *route.Plan, opt Options) ([]byte, error) {
	opt = opt.For(s)
	n := newNoticeSheet(s, t, p, opt)
	doc := paper.New(opt.Paper, false, paper.Meta{
		Title: n.Title + ": notice", Subject: "Notice of the cleaning of drains",
		Author: s.Job.Estimator, Date: s.Job.Date,
	})
	press := settleNotice(doc, n)
	press.draw()
	doc.Footers(list("Notice of drain cleaning", revision(s.Job.Revision), n.Title))
	out, err := doc.Bytes()
	if err != nil {
		return nil, fmt.Errorf("notice: %w", err)
	}
	return out, nil
}

// noticeSizes are the sizes of a notice's ordinary text in points, the largest
// first.
var noticeSizes = []float64{15, 14, 13, 12, 11, 10.5, 10}

// settleNotice lays a notice out in the largest type that fits one page, or the
// fewest pages.
func settleNotice(doc *paper.Doc, n *noticeSheet) *press {
	var best *press
	for _, pt := range noticeSizes {
		press := newPress(doc)
		press.notice(n, pt)
		pages := len(press.pages.Pages())
		if best == nil || pages < len(best.pages.Pages()) {
			best = press
		}
		if pages == 1 {
			break
		}
	}
	return best
}
