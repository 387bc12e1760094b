package chart

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"linemap/internal/export/drawing"
	"linemap/internal/route"
)

type leg = route.Leg

// shortfallTable says in plain words what is not cleaned, why, and what would
// help, down to the line bottom.
func (c *side) shortfallTable(bottom float64) {
	all := c.plan.Shortfalls
	if len(all) == 0 {
		return
	}
	c.heading("Not cleaned")
	const indent = 5.5
	w := c.box.W - indent
	for i := range all {
		sf := &all[i]
		name := sf.Name
		if name == "" {
			name = string(sf.Pipe)
		}
		head := fmt.Sprintf("%s, %s, %s", name, sf.Size.In(c.sys), c.sys.Length(sf.Length))
		body := sentence(sf.Why(c.sys)) + " To cure it: " + sentence2(sf.Cure.Say(c.sys))
		h := c.height(head, styleBold, w) + c.height(body, styleSmall, w) + 1
		more := 0.0
		if i < len(all)-1 {
			more = lineHeight(ptSmall)
		}
		if c.y+h+more > bottom {
			c.text(c.box.X, c.y+capital(ptSmall)+0.5, fmt.Sprintf("and %d more; see the run sheet", len(all)-i), styleSmall)
			c.y += lineHeight(ptSmall)
			return
		}
		c.list.Add(drawing.Base, badgeSample(c.box.X+2, c.y+1.9, drawing.Square, tag(i), drawing.White, drawing.Black)...)
		y := c.paragraph(c.box.X+indent, c.y, w, head, styleBold)
		c.y = c.paragraph(c.box.X+indent, y, w, body, styleSmall) + 1
	}
}

// runTable lists the runs in order, in as many columns as fit down to the line
// bottom.
func (c *side) runTable(bottom float64) {
	type row struct{ number, from, way, long string }
	var rows []row
	for _, b := range c.plan.Blocks {
		for _, r := range b.Runs {
			way := "up"
			if r.Direction == route.Downstream {
				way = "down"
			}
			from := string(r.Access)
			if n, ok := c.graph.NodeIndex(r.Access); ok {
				from = c.label(&c.graph.Net.Nodes[n])
			}
			rows = append(rows, row{strconv.Itoa(r.Number), from, way, c.sys.Length(cleaned(r.Path))})
		}
	}
	h := lineHeight(ptSmall) + 0.3
	head := 2 + capital(ptName) + 1.8 + h
	fit := int((bottom - c.y - head) / h)
	if len(rows) == 0 || fit < 2 {
		return
	}
	columns := 1
	if len(rows) > fit {
		columns = 2
	}
	left := 0
	if len(rows) > columns*fit {
		fit-- // for the last line
		left = len(rows) - columns*fit
		rows = rows[:columns*fit]
	}
	c.heading("Runs in order")
	w := (c.box.W - 3*float64(columns-1)) / float64(columns)
	per := (len(rows) + columns - 1) / columns
	top := c.y
	for k := range columns {
		x := c.box.X + float64(k)*(w+3)
		y := top + capital(ptSmall) + 0.5
		// Number, opening, way, length; the opening takes what is left.
		at := [4]float64{x + 5, x + 6.5, x + w - 16, x + w}
		room := at[2] - at[1] - 1
		set := func(r row, st drawing.Style) {
			c.text(at[0], y, r.number, st.Set(drawing.Right))
			c.text(at[1], y, c.rule.Fit(r.from, st.Bold, st.Pt, room), st)
			c.text(at[2], y, r.way, st)
			c.text(at[3], y, r.long, st.Set(drawing.Right))
			y += h
		}
		set(row{"Run", "from", "", "cleans"}, styleSmall.In(drawing.Grey))
		for _, r := range rows[min(k*per, len(rows)):min((k+1)*per, len(rows))] {
			set(r, styleSmall)
		}
		c.y = max(c.y, y-capital(ptSmall))
	}
	if left > 0 {
		c.text(c.box.X, c.y+capital(ptSmall), fmt.Sprintf("and %d more; see the run sheet", left), styleSmall)
		c.y += h
	}
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
