// Package svg paints a sheet of a drawing as a scalable vector graphic: one
// SVG 1.1 document in millimetres, the same bytes for the same sheet. Layers
// become groups with a class of their own, so that a style sheet or an editor
// can hide one.
package svg

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"

	"linemap/internal/export/drawing"
)

// Font names the font that the sheet was measured in, with stand-ins.
const Font = "'DejaVu Sans Condensed','DejaVu Sans',Verdana,sans-serif"

// Encode returns sheets of one size, one below the other, as an SVG document
// with a title and a description for readers that cannot see it.
func Encode(sheets []*drawing.Sheet, language, title, description string) []byte {
	p := &painter{}
	w, h := 0.0, 0.0
	for _, s := range sheets {
		w, h = max(w, s.W), h+s.H
	}
	p.printf(`<?xml version="1.0" encoding="UTF-8"?>`+"\n"+
		`<svg xmlns="http://www.w3.org/2000/svg" xml:lang="%s" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="%s" stroke-linejoin="round">`+"\n",
		escape(language), num(w), num(h), num(w), num(h), Font)
	p.printf("<title>%s</title>\n<desc>%s</desc>\n", escape(title), escape(description))
	p.printf(`<rect width="%s" height="%s" fill="#ffffff"/>`+"\n", num(w), num(h))
	y := 0.0
	for _, s := range sheets {
		p.printf(`<g transform="translate(0 %s)">`+"\n", num(y))
		drawing.Paint(s, p)
		p.printf("</g>\n")
		y += s.H
	}
	p.printf("</svg>\n")
	return p.Bytes()
}

// painter is an SVG document as a [drawing.Painter].
type painter struct {
	bytes.Buffer
	clips   int
	clipped bool
	layered bool
}

func (p *painter) printf(format string, args ...any) { fmt.Fprintf(&p.Buffer, format, args...) }

func (p *painter) Clip(b *drawing.Box) {
	p.Layer(drawing.Base)
	if p.clipped {
		p.printf("</g>\n")
	}
	p.clipped = b != nil
	if b == nil {
		return
	}
	p.clips++
	p.printf(`<clipPath id="c%d"><rect x="%s" y="%s" width="%s" height="%s"/></clipPath>`+"\n",
		p.clips, num(b.X), num(b.Y), num(b.W), num(b.H))
	p.printf(`<g clip-path="url(#c%d)">`+"\n", p.clips)
}

func (p *painter) Layer(l drawing.Layer) {
	if p.layered {
		p.printf("</g>\n")
	}
	p.layered = l != drawing.Base
	if p.layered {
		p.printf(`<g class="%s">`+"\n", strings.ReplaceAll(strings.ToLower(string(l)), " ", "-"))
	}
}

func (p *painter) Outline(o drawing.Outline, pen drawing.Pen, fill *drawing.Colour) {
	if len(o) == 0 || (pen.Width <= 0 && fill == nil) {
		return
	}
	p.WriteString(`<path d="`)
	for _, s := range o {
		switch s.Op {
		case drawing.Move:
			p.printf("M%s %s", num(s.P[0].X), num(s.P[0].Y))
		case drawing.Line:
			p.printf("L%s %s", num(s.P[0].X), num(s.P[0].Y))
		case drawing.Curve:
			p.printf("C%s %s %s %s %s %s", num(s.P[0].X), num(s.P[0].Y),
				num(s.P[1].X), num(s.P[1].Y), num(s.P[2].X), num(s.P[2].Y))
		case drawing.Close:
			p.WriteByte('Z')
		}
	}
	p.WriteByte('"')
	if fill != nil {
		p.printf(` fill="%s"`, fill.Hex())
	} else {
		p.WriteString(` fill="none"`)
	}
	if pen.Width > 0 {
		p.printf(` stroke="%s" stroke-width="%s"`, pen.Ink.Hex(), num(pen.Width))
		if pen.Round {
			p.WriteString(` stroke-linecap="round"`)
		}
		if len(pen.Dash) > 0 {
			dash := make([]string, len(pen.Dash))
			for i, d := range pen.Dash {
				dash[i] = num(d)
			}
			p.printf(` stroke-dasharray="%s"`, strings.Join(dash, " "))
		}
	}
	p.WriteString("/>\n")
}

func (p *painter) Lettering(t drawing.Text, at drawing.Point) {
	if t.S == "" {
		return
	}
	p.printf(`<text x="%s" y="%s" font-size="%s"`, num(at.X), num(at.Y), num(t.Style.Pt*25.4/72))
	if t.Style.Bold {
		p.WriteString(` font-weight="bold"`)
	}
	switch t.Style.Align {
	case drawing.Centre:
		p.WriteString(` text-anchor="middle"`)
	case drawing.Right:
		p.WriteString(` text-anchor="end"`)
	}
	if t.Style.Ink != drawing.Black {
		p.printf(` fill="%s"`, t.Style.Ink.Hex())
	}
	if t.Turn != 0 {
		p.printf(` transform="rotate(%s %s %s)"`, num(-t.Turn*180/math.Pi), num(at.X), num(at.Y))
	}
	if t.Wide > 0 { // holds the measured width where a stand-in font is used
		p.printf(` textLength="%s" lengthAdjust="spacingAndGlyphs"`, num(t.Wide))
	}
	p.printf(">%s</text>\n", escape(t.S))
}

func (p *painter) Picture(s drawing.Picture, c drawing.Point, w, h float64) {
	file, err := s.PNG()
	if err != nil {
		return // an image without a dot
	}
	p.printf(`<image xmlns:xlink="http://www.w3.org/1999/xlink" x="%s" y="%s" width="%s" height="%s" preserveAspectRatio="none"`,
		num(c.X-w/2), num(c.Y-h/2), num(w), num(h))
	if s.Dim > 0 {
		p.printf(` opacity="%s"`, num(s.Opacity()))
	}
	if s.Turn != 0 {
		p.printf(` transform="rotate(%s %s %s)"`, num(-s.Turn*180/math.Pi), num(c.X), num(c.Y))
	}
	p.printf(` xlink:href="data:image/png;base64,%s"/>`+"\n", base64.StdEncoding.EncodeToString(file))
}

// num writes a number to the hundredth, as short as it gets.
func num(v float64) string {
	s := strconv.FormatFloat(v, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func escape(s string) string {
	var b strings.Builder
	// A strings.Builder never fails, and what XML cannot hold is replaced.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}
