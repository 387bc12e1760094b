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
	c.heading(c.words().left)
	longer := 0.0 // the badges of many shortfalls
	for _, i := range all {
		longer = max(longer, c.rule.Width(tag(i), true, ptSmall)+0.8-sampleTag)
	}
	indent := 5.5 + longer
	w := c.box.W - indent
	for n, i := range all {
		sf := &c.plan.Shortfalls[i]
		name, size := string(sf.Pipe), sf.Size
		if p, ok := c.graph.PipeIndex(sf.Pipe); ok {
			name, size = c.graph.PipeName(p), c.graph.Net.Pipes[p].Size
		}
		head := fmt.Sprintf("%s, %s, %s", name, size.In(c.sys), c.sys.Length(sf.Length))
		body := c.reason(sf)
		h := c.height(head, styleBold, w) + c.height(body, styleSmall, w) + 1
		more := 0.0
		if n < len(all)-1 {
			more = lineHeight(ptSmall)
		}
		if c.y+h+more > bottom {
			c.text(c.box.X, c.y+capital(ptSmall)+0.5, fmt.Sprintf("and %d more; %s", len(all)-n, c.words().more), styleSmall)
			c.y += lineHeight(ptSmall)
			return
		}
		c.list.Add(drawing.Base, badgeSample(c.box.X+2+longer/2, c.y+1.9, drawing.Square, tag(i), longer, drawing.White, drawing.Black)...)
		y := c.paragraph(c.box.X+indent, c.y, w, head, styleBold)
		c.y = c.paragraph(c.box.X+indent, y, w, body, styleSmall) + 1
	}
}

// reason says why a pipe stays as it is and what would help.
func (c *side) reason(sf *route.Shortfall) string {
	if c.done != nil {
		return c.done.Why[sf.Pipe]
	}
	return sentence(sf.Why(c.sys)) + " To cure it: " + sentence2(sf.Cure.Say(c.sys))
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
