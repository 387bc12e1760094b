package export

import (
	"strconv"
	"strings"

	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
	"linemap/internal/route"
)

// whyRow says why a run is made as it is.
type whyRow struct{ Run, Opening, Why string }

// whys lists what speaks for each run against what one might expect in its
// place. It stands apart from the runs, for whoever wants to change one.
func (w *wording) whys(p *route.Plan) (rows []whyRow) {
	for _, r := range p.Runs() {
		if why := p.Why(r.Number, w.sys); len(why) > 0 {
			rows = append(rows, whyRow{strconv.Itoa(r.Number), w.node(r.Access), strings.Join(why, " ")})
		}
	}
	return rows
}

// whys sets them.
func (p *press) whys(all []whyRow) {
	t := p.table(p.width,
		column{head: "Run", share: 10, align: paper.Right, bold: true},
		column{head: "Opening", share: 24, bold: true, lines: 2},
		column{head: "Why so", share: 162, lines: 3})
	rows := make([]flow.Piece, len(all))
	for i, r := range all {
		rows[i] = t.row(r.Run, r.Opening, r.Why)
	}
	p.rows("Why each run is made so", t, rows)
}
