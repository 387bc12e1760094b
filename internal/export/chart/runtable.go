package chart

import (
	"fmt"
	"strconv"
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// row is a line of the table of runs: a run, or the stay that heads its runs.
type row struct {
	number, from, way, long, head string
	stay                          bool // sums up a stay
}

// runRows lists the runs in order under the stays of the trailer: all of them,
// or those that the sheet shows.
func (c *side) runRows(everything bool) []row {
	var rows []row
	stay := 0
	for i, b := range c.plan.Blocks {
		if i == 0 || c.plan.Blocks[i-1].Spot != b.Spot {
			stay++
		}
		head := fmt.Sprintf("Set-up %d, %s", stay, c.hoseName(b.Hose))
		headed := false
		for _, r := range b.Runs {
			if !everything && !c.shown[strconv.Itoa(r.Number)] {
				continue
			}
			if !headed {
				rows, headed = append(rows, row{head: head}), true
			}
			way := "up"
			if r.Direction == route.Downstream {
				way = "down"
			}
			from := string(r.Access)
			if n, ok := c.graph.NodeIndex(r.Access); ok {
				from = c.label(&c.graph.Net.Nodes[n])
			}
			rows = append(rows, row{number: strconv.Itoa(r.Number), from: from, way: way, long: c.sys.Length(cleaned(r.Path))})
		}
	}
	return rows
}

func (d *draft) hoseName(id string) string {
	for i := range d.site.Rig.Hoses {
		if h := &d.site.Rig.Hoses[i]; h.ID == id && h.Name != "" {
			return h.Name
		}
	}
	return id
}

// runTable lists the runs in order, in one or two columns, down to the line
// bottom.
func (c *side) runTable(bottom float64, everything bool) {
	rows := c.runRows(everything)
	h := lineHeight(ptSmall) + 0.3
	fit := int((bottom - c.y - headingHeight - h) / h)
	if len(rows) == 0 || fit < 3 {
		return
	}
	columns := 1
	if len(rows) > fit {
		columns = 2
	}
	if len(rows) > columns*fit {
		rows = c.stayRows(everything)
		if over := len(rows) - fit; over > 0 {
			rows = append(rows[:fit-1], row{head: fmt.Sprintf("and %d more: see the run sheet", over+1)})
		}
		columns = 1
	}
	c.heading(c.words().runs)
	const air = 4.0
	w := (c.box.W - air*float64(columns-1)) / float64(columns)
	per := (len(rows) + columns - 1) / columns
	top := c.y
	for k := range columns {
		part := rows[min(k*per, len(rows)):min((k+1)*per, len(rows))]
		c.y = max(c.y, c.runColumn(part, c.box.X+float64(k)*(w+air), top, w, h))
	}
}

// stayRows sums the runs up by stay and hose, where the runs themselves find no
// room.
func (c *side) stayRows(everything bool) []row {
	var rows []row
	stay := 0
	for i, b := range c.plan.Blocks {
		if i == 0 || c.plan.Blocks[i-1].Spot != b.Spot {
			stay++
		}
		var runs []int
		var sum unit.Length
		for _, r := range b.Runs {
			if everything || c.shown[strconv.Itoa(r.Number)] {
				runs, sum = append(runs, r.Number), sum+cleaned(r.Path)
			}
		}
		if len(runs) > 0 {
			rows = append(rows, row{
				number: strconv.Itoa(stay), from: c.hoseName(b.Hose), way: spans(runs), long: c.sys.Length(sum), stay: true,
			})
		}
	}
	return rows
}

// spans lists ascending numbers in short: "2, 11, 15 to 18".
func spans(n []int) string {
	var words []string
	for i := 0; i < len(n); {
		k := i
		for k+1 < len(n) && n[k+1] == n[k]+1 {
			k++
		}
		switch {
		case k > i+1:
			words = append(words, fmt.Sprintf("%d to %d", n[i], n[k]))
		case k > i:
			words = append(words, fmt.Sprintf("%d, %d", n[i], n[k]))
		default:
			words = append(words, strconv.Itoa(n[i]))
		}
		i = k + 1
	}
	return strings.Join(words, ", ")
}

// runColumn sets one column of the table of runs and returns the y below it.
func (c *side) runColumn(part []row, x, top, w, h float64) float64 {
	y := top + capital(ptSmall) + 0.5
	// Number, way, length; the opening takes what is left.
	wide := 4.4
	for _, r := range part {
		wide = max(wide, c.rule.Width(r.number, false, ptSmall))
	}
	number, from, way, long := x+wide, x+wide+1.2, x+w-14.6, x+w
	room := 6.2
	names := row{number: "Run", from: "from", way: "way", long: c.words().cleans}
	if len(part) > 0 && part[0].stay {
		number, from, way = x+8, x+9.5, x+30
		room = w - 30 - 11
		names = row{number: "Set-up", from: "hose", way: "runs", long: c.words().cleans}
	}
	set := func(r row, st drawing.Style) {
		c.text(number, y, r.number, st.Set(drawing.Right))
		c.text(from, y, c.rule.Fit(r.from, st.Bold, st.Pt, way-from-1), st)
		c.text(way, y, c.rule.Fit(r.way, st.Bold, st.Pt, room), st)
		c.text(long, y, r.long, st.Set(drawing.Right))
	}
	set(names, styleSmall.In(drawing.Grey))
	for _, r := range part {
		y += h
		if r.head != "" {
			c.text(x, y, c.rule.Fit(r.head, true, ptSmall, w), styleBold)
			continue
		}
		set(r, styleSmall)
	}
	return y + h - capital(ptSmall)
}

// cleaned is the length of pipe that a run cleans.
func cleaned(legs []route.Leg) unit.Length {
	var sum unit.Length
	for _, l := range legs {
		if l.Cleaned {
			sum += l.To - l.From
		}
	}
	return sum
}
