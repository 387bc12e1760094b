package drawing

// Enlarged returns the panel as it is k times as large, lettering and lines too,
// with the paper's top left corner moved to a place. All of it is on the layer
// that is always shown. Pictures are left out.
func (p Panel) Enlarged(k float64, corner Point) Panel {
	place := func(q Point) Point { return q }
	if p.Frame.Scale == 0 { // the paper itself
		place = func(q Point) Point { return q.Scale(k).Add(corner) }
	} else {
		p.Frame.Paper, p.Frame.Scale = p.Frame.Paper.Scale(k).Add(corner), p.Frame.Scale*k
	}
	if p.Clip != nil {
		at := Point{p.Clip.X, p.Clip.Y}.Scale(k).Add(corner)
		p.Clip = &Box{at.X, at.Y, p.Clip.W * k, p.Clip.H * k}
	}
	places := func(all []Point) []Point {
		out := make([]Point, len(all))
		for i, q := range all {
			out[i] = place(q)
		}
		return out
	}
	var out List
	for _, it := range p.Items {
		switch s := it.Shape.(type) {
		case Path:
			s.Points, s.Pen = places(s.Points), s.Pen.enlarged(k)
			out.Add(Base, s)
		case Ticks:
			s.Points, s.Pen, s.Every, s.Reach = places(s.Points), s.Pen.enlarged(k), s.Every*k, s.Reach*k
			out.Add(Base, s)
		case Mark:
			s.At, s.Off, s.Pen, s.Size, s.Longer = place(s.At), s.Off.Scale(k), s.Pen.enlarged(k), s.Size*k, s.Longer*k
			out.Add(Base, s)
		case Text:
			s.At, s.Off, s.Wide, s.Pad = place(s.At), s.Off.Scale(k), s.Wide*k, s.Pad*k
			s.Style.Pt *= k
			out.Add(Base, s)
		case Leader:
			s.At, s.From, s.To, s.Pen = place(s.At), s.From.Scale(k), s.To.Scale(k), s.Pen.enlarged(k)
			out.Add(Base, s)
		}
	}
	p.List = out
	return p
}

func (p Pen) enlarged(k float64) Pen {
	p.Width *= k
	dash := make([]float64, len(p.Dash))
	for i, d := range p.Dash {
		dash[i] = d * k
	}
	p.Dash = dash
	return p
}
