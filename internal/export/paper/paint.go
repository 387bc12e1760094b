package paper

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"math"

	"codeberg.org/go-pdf/fpdf"

	"linemap/internal/export/drawing"
)

// Paint paints a sheet onto the current page. Its layers become layers of the
// PDF, shared by all sheets of the document.
func (d *Doc) Paint(s *drawing.Sheet) {
	if d.drawn == nil {
		d.drawn = map[drawing.Layer]int{}
	}
	for _, l := range drawing.Layers() {
		if _, declared := d.drawn[l]; !declared && s.Has(l) {
			d.drawn[l] = d.pdf.AddLayer(string(l), true)
		}
	}
	p := &painter{doc: d, layers: d.drawn}
	drawing.Paint(s, p)
}

// painter is the PDF as a [drawing.Painter].
type painter struct {
	doc     *Doc
	layers  map[drawing.Layer]int
	clipped bool
}

func (p *painter) Clip(b *drawing.Box) {
	p.doc.pdf.EndLayer()
	if p.clipped {
		p.doc.pdf.ClipEnd()
		p.doc.font = Style{} // the writer's state went back to before the clip
	}
	p.clipped = b != nil
	if b != nil {
		p.doc.pdf.ClipRect(b.X, b.Y, b.W, b.H, false)
	}
}

func (p *painter) Layer(l drawing.Layer) {
	p.doc.pdf.EndLayer()
	if id, ok := p.layers[l]; ok {
		p.doc.pdf.BeginLayer(id)
	}
}

func (p *painter) Outline(o drawing.Outline, pen Pen, fill *Colour) {
	op := p.doc.ink(pen, fill)
	if op == "" || len(o) == 0 {
		return
	}
	pdf := p.doc.pdf
	for _, s := range o {
		switch s.Op {
		case drawing.Move:
			pdf.MoveTo(s.P[0].X, s.P[0].Y)
		case drawing.Line:
			pdf.LineTo(s.P[0].X, s.P[0].Y)
		case drawing.Curve:
			pdf.CurveBezierCubicTo(s.P[0].X, s.P[0].Y, s.P[1].X, s.P[1].Y, s.P[2].X, s.P[2].Y)
		case drawing.Close:
			pdf.ClosePath()
		}
	}
	pdf.DrawPath(op)
}

func (p *painter) Lettering(t drawing.Text, at drawing.Point) {
	if t.Turn == 0 {
		p.doc.Text(at.X, at.Y, t.S, t.Style)
		return
	}
	p.doc.use(t.Style)
	p.doc.pdf.TransformBegin()
	p.doc.pdf.TransformRotate(t.Turn*180/math.Pi, at.X, at.Y)
	p.doc.Text(at.X, at.Y, t.S, t.Style)
	p.doc.pdf.TransformEnd()
}

func (p *painter) Picture(s drawing.Picture, c drawing.Point, w, h float64) {
	pdf := p.doc.pdf
	file, err := s.PNG()
	if err != nil {
		pdf.SetError(err)
		return
	}
	// Under the sum of its bytes, an image that is shown twice is kept once.
	name := fmt.Sprintf("%x", sha256.Sum256(file))
	options := fpdf.ImageOptions{ImageType: "png"}
	pdf.RegisterImageOptionsReader(name, options, bytes.NewReader(file))
	pdf.TransformBegin()
	pdf.TransformRotate(s.Turn*180/math.Pi, c.X, c.Y)
	if s.Dim > 0 {
		pdf.SetAlpha(s.Opacity(), "Normal")
	}
	pdf.ImageOptions(name, c.X-w/2, c.Y-h/2, w, h, false, options, 0, "")
	pdf.TransformEnd()
	if s.Dim > 0 {
		pdf.SetAlpha(1, "Normal")
	}
}
