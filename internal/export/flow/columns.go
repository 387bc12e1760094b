package flow

// Column is a list of pieces at a distance from the left edge.
type Column struct {
	X      float64
	Pieces []Piece
}

// Columns makes one piece of columns side by side. It splits between pieces:
// every column keeps as many of its pieces as fit and goes on with the rest
// beside the others.
func Columns(cols ...Column) Piece {
	p := Piece{Draw: func(x, y float64) {
		for _, c := range cols {
			at := y
			for _, p := range c.Pieces {
				if p.Draw != nil {
					p.Draw(x+c.X, at)
				}
				at += p.Height
			}
		}
	}}
	for _, c := range cols {
		p.Height = max(p.Height, Height(c.Pieces))
	}
	p.Split = func(room float64) (head, rest Piece, ok bool) {
		heads, rests := make([]Column, len(cols)), make([]Column, len(cols))
		for i, c := range cols {
			n, h := 0, 0.0
			for n < len(c.Pieces) && h+c.Pieces[n].Height <= room {
				h += c.Pieces[n].Height
				n++
			}
			heads[i], rests[i] = Column{c.X, c.Pieces[:n]}, Column{c.X, c.Pieces[n:]}
			ok = ok || n > 0
		}
		return Columns(heads...), Columns(rests...), ok
	}
	return p
}

// Stack makes one piece of pieces one below the other. It never splits.
func Stack(pieces ...Piece) Piece {
	p := Columns(Column{Pieces: pieces})
	p.Split = nil
	return p
}
