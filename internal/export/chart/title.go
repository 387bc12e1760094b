package chart

import (
	"fmt"
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/site"
)

// titleBlock sets the title block against the foot of the column and returns
// the y of its top.
func (c *side) titleBlock(opt Options, den float64, of int) float64 {
	job := &c.site.Job
	const pad = 1.6
	w := c.box.W - 2*pad
	title := drawing.Style{Pt: ptTitle, Bold: true}
	name := job.Title
	if strings.TrimSpace(name) == "" {
		name = "Drain cleaning"
	}
	names := c.atMost(2, name, title, w)
	var lines []string
	for _, s := range []string{job.Customer, job.Address} {
		if strings.TrimSpace(s) != "" {
			lines = append(lines, c.atMost(2, s, styleSmall, w)...)
		}
	}
	scale := scaleText(c.sys, den)
	printed := "at 100 % on " + paperName(opt.Paper)
	cells := [][4]string{
		{"Drawing", c.words().drawing, "Sheet", fmt.Sprintf("%d of %d", c.sheet+1, of)},
		{"Date", orDash(opt.Date), "Revision", orDash(job.Revision)},
		{"Scale", scale, "Printed", printed},
	}
	const cell = 7.2
	h := float64(len(names))*lineHeight(title.Pt) + float64(len(lines))*lineHeight(ptSmall)
	h += 2*pad + cell*float64(len(cells))
	box := drawing.Box{X: c.box.X, Y: c.box.Bottom() - h, W: c.box.W, H: h}
	c.rect(box, drawing.Pen{Width: 0.5}, nil)
	y := box.Y + pad
	for _, l := range names {
		y = c.paragraph(box.X+pad, y, w, l, title)
	}
	for _, l := range lines {
		y = c.paragraph(box.X+pad, y, w, l, styleSmall)
	}
	y += pad
	split := box.X + box.W*0.58
	for _, row := range cells {
		c.line(box.X, y, box.Right(), y, thinPen)
		c.line(split, y, split, y+cell, thinPen)
		for i, x := range []float64{box.X, split} {
			room := split - box.X - 2*pad
			if i == 1 {
				room = box.Right() - split - 2*pad
			}
			c.text(x+pad, y+2.9, row[2*i], drawing.Style{Pt: ptSmall, Ink: drawing.Grey})
			c.text(x+pad, y+6, c.rule.Fit(row[2*i+1], true, ptSmall, room), styleBold)
		}
		y += cell
	}
	return box.Y
}

// atMost breaks s into lines no wider than w and cuts what is over n lines.
func (c *side) atMost(n int, s string, st drawing.Style, w float64) []string {
	lines := c.rule.Wrap(s, st.Bold, st.Pt, w)
	if len(lines) > n {
		rest := strings.Join(lines[n-1:], " ")
		lines = append(lines[:n-1], c.rule.Fit(rest, st.Bold, st.Pt, w))
	}
	return lines
}

func orDash(s string) string {
	if s = strings.TrimSpace(s); s == "" {
		return "–"
	}
	return s
}

func paperName(p site.Paper) string {
	if p == site.A4 {
		return "A4"
	}
	return "Letter"
}
