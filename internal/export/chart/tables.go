package chart

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"linemap/internal/export/drawing"
	"linemap/internal/route"
	"linemap/internal/unit"
)

type leg = route.Leg

// shortfallTable says in plain words what is not cleaned, why, and what would
// help, down to the line bottom: everything, or what the sheet shows.
func (c *side) shortfallTable(bottom float64, everything bool) {
	var all []int
	for i := range c.plan.Shortfalls {
		if everything || c.shown[tag(i)] {
			all = append(all, i)
		}
	}
	if len(all) == 0 {
		return
	}
	c.heading("Not cleaned")
	const indent = 5.5
	w := c.box.W - indent
	for n, i := range all {
		sf := &c.plan.Shortfalls[i]
		name := sf.Name
		if name == "" {
			name = string(sf.Pipe)
		}
		head := fmt.Sprintf("%s, %s, %s", name, sf.Size.In(c.sys), c.sys.Length(sf.Length))
		body := sentence(sf.Why(c.sys)) + " To cure it: " + sentence2(sf.Cure.Say(c.sys))
		h := c.height(head, styleBold, w) + c.height(body, styleSmall, w) + 1
		more := 0.0
		if n < len(all)-1 {
			more = lineHeight(ptSmall)
		}
		if c.y+h+more > bottom {
			c.text(c.box.X, c.y+capital(ptSmall)+0.5, fmt.Sprintf("and %d more; see the run sheet", len(all)-n), styleSmall)
			c.y += lineHeight(ptSmall)
			return
		}
		c.list.Add(drawing.Base, badgeSample(c.box.X+2, c.y+1.9, drawing.Square, tag(i), drawing.White, drawing.Black)...)
		y := c.paragraph(c.box.X+indent, c.y, w, head, styleBold)
		c.y = c.paragraph(c.box.X+indent, y, w, body, styleSmall) + 1
	}
}

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
		rows = rows[:min(len(rows), fit)]
		columns = 1
	}
	c.heading("Runs in order")
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
	number, from, way, long := x+4.4, x+5.6, x+w-14.6, x+w
	room := 6.2
	names := row{number: "Run", from: "from", way: "way", long: "cleans"}
	if len(part) > 0 && part[0].stay {
		number, from, way = x+8, x+9.5, x+30
		room = w - 30 - 11
		names = row{number: "Set-up", from: "hose", way: "runs", long: "cleans"}
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

// sentence sets a capital at the start of s and a stop at its end.
func sentence(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + sentence2(s[size:])
}

// sentence2 sets a stop at the end of s.
func sentence2(s string) string {
	if s == "" || strings.HasSuffix(s, ".") {
		return s
	}
	return s + "."
}

func number1(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
