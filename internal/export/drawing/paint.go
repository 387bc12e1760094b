package drawing

import "math"

func (s Path) paint(f Frame, p Painter) {
	if len(s.Points) < 2 {
		return
	}
	p.Outline(f.line(s.Points, s.Closed), s.Pen, s.Fill)
}

func (s Ticks) paint(f Frame, p Painter) {
	if s.Every <= 0 {
		return
	}
	var o Outline
	next := s.Every / 2
	for i := 1; i < len(s.Points); i++ {
		a, b := f.To(s.Points[i-1]), f.To(s.Points[i])
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		if long == 0 {
			continue
		}
		dir := b.Sub(a).Scale(1 / long)
		for ; next <= long; next += s.Every {
			o = append(o, s.tick(a.Add(dir.Scale(next)), dir)...)
		}
		next -= long
	}
	if len(o) == 0 && len(s.Points) > 1 { // shorter than a tick's place
		a, b := f.To(s.Points[0]), f.To(s.Points[len(s.Points)-1])
		dir := Point{1, 0}
		if long := math.Hypot(b.X-a.X, b.Y-a.Y); long > 0 {
			dir = b.Sub(a).Scale(1 / long)
		}
		o = s.tick(a.Add(b).Scale(0.5), dir)
	}
	p.Outline(o, s.Pen, nil)
}

// tick returns one tick about c of a line that goes along dir.
func (s Ticks) tick(c, dir Point) Outline {
	across := Point{-dir.Y, dir.X}.Scale(s.Reach)
	if !s.Cross {
		a, b := c.Add(across), c.Sub(across)
		return stroke(a.X, a.Y, b.X, b.Y)
	}
	along := dir.Scale(s.Reach)
	a, b := c.Add(across).Add(along), c.Sub(across).Sub(along)
	d, e := c.Add(across).Sub(along), c.Sub(across).Add(along)
	return append(stroke(a.X, a.Y, b.X, b.Y), stroke(d.X, d.Y, e.X, e.Y)...)
}

func (s Mark) paint(f Frame, p Painter) {
	c := f.To(s.At).Add(s.Off)
	if st, ok := p.(Stamper); ok {
		st.Stamp(s, c)
		return
	}
	s.Outlines(c, p)
}

// Outlines paints the mark with its middle at c of the paper, one outline after
// the other.
func (s Mark) Outlines(c Point, p Painter) {
	out := 0.0
	if s.Size > 0 {
		out = s.Longer / s.Size
	}
	for _, o := range s.Symbol.figures(out) {
		fill := s.Fill
		if o[len(o)-1].Op != Close {
			fill = nil
		}
		p.Outline(o.at(c, s.Size/2, s.Turn), s.Pen, fill)
	}
}

func (s Text) paint(f Frame, p Painter) {
	c := f.To(s.At).Add(s.Off)
	if s.Plate != nil {
		p.Outline(s.plate().at(c, 1, s.Turn), Pen{}, s.Plate)
	}
	p.Lettering(s, c)
}

// plate returns the box of the text about its anchor, x along it and y up.
func (s Text) plate() Outline {
	x := 0.0
	switch s.Style.Align {
	case Centre:
		x = -s.Wide / 2
	case Right:
		x = -s.Wide
	}
	em := s.Style.Pt * 25.4 / 72
	low, high := -0.24*em-s.Pad, 0.76*em+s.Pad
	return polygon(x-s.Pad, low, x+s.Wide+s.Pad, low, x+s.Wide+s.Pad, high, x-s.Pad, high)
}

func (s Leader) paint(f Frame, p Painter) {
	c := f.To(s.At)
	a, b := c.Add(s.From), c.Add(s.To)
	p.Outline(stroke(a.X, a.Y, b.X, b.Y), s.Pen, nil)
}

func (s Picture) paint(f Frame, p Painter) {
	if s.Image != nil && s.W > 0 && s.H > 0 {
		p.Picture(s, f.To(s.At), s.W*f.zoom(), s.H*f.zoom())
	}
}

// line returns ground points as an outline on the paper.
func (f Frame) line(pts []Point, closed bool) Outline {
	o := make(Outline, 0, len(pts)+1)
	for i, pt := range pts {
		op := Line
		if i == 0 {
			op = Move
		}
		o = append(o, Step{Op: op, P: [3]Point{f.To(pt)}})
	}
	if closed {
		o = append(o, Step{Op: Close})
	}
	return o
}
