package chart

import "linemap/internal/export/drawing"

// one is a symbol about x, y on the paper, as are the samples below.
func one(sym drawing.Symbol, size float64, pen drawing.Pen, fill drawing.Colour) func(x, y float64) []drawing.Shape {
	return func(x, y float64) []drawing.Shape {
		return []drawing.Shape{symbolAt(x, y, sym, size, pen, ink(fill))}
	}
}

func symbolAt(x, y float64, sym drawing.Symbol, size float64, pen drawing.Pen, fill *drawing.Colour) drawing.Shape {
	return drawing.Mark{At: drawing.Point{X: x, Y: y}, Symbol: sym, Size: size, Pen: pen, Fill: fill}
}

func ends2(x, y float64) []drawing.Point {
	const half = sampleWidth/2 - 0.3
	return []drawing.Point{{X: x - half, Y: y}, {X: x + half, Y: y}}
}

func pipeSample(x, y float64, pen drawing.Pen) []drawing.Shape {
	return []drawing.Shape{drawing.Path{Points: ends2(x, y), Pen: pen}}
}

func lineSample(pen drawing.Pen) func(x, y float64) []drawing.Shape {
	return func(x, y float64) []drawing.Shape { return pipeSample(x, y, pen) }
}

func ribbonSample(x, y float64) []drawing.Shape {
	line := ends2(x, y)
	line[1].X -= 1.5
	wide := 0.65 + 2*ribbonReach
	tint := ribbonInks[0].Tint(ribbonTint)
	return append([]drawing.Shape{
		drawing.Path{Points: line, Pen: drawing.Pen{Width: wide, Ink: drawing.Grey}},
		drawing.Path{Points: line, Pen: drawing.Pen{Width: wide - 2*ribbonEdge, Ink: tint}},
		drawing.Mark{
			At: line[1], Symbol: drawing.Wedge, Size: wide + 1.2,
			Pen: drawing.Pen{Width: ribbonEdge, Ink: drawing.Grey}, Fill: ink(tint),
		},
	}, drawing.Path{Points: line, Pen: drawing.Pen{Width: 0.65}})
}

// sampleTag is how high a badge is in the side column, in millimetres.
const sampleTag = 3.4

func badgeSample(x, y float64, sym drawing.Symbol, s string, longer float64, fill, text drawing.Colour) []drawing.Shape {
	return []drawing.Shape{
		drawing.Mark{
			At: drawing.Point{X: x, Y: y}, Symbol: sym, Size: sampleTag, Longer: longer, Pen: drawing.Pen{Width: 0.3}, Fill: ink(fill),
		},
		drawing.Text{
			At: drawing.Point{X: x, Y: y}, Off: drawing.Point{Y: capital(ptSmall) / 2}, S: s,
			Style: drawing.Style{Pt: ptSmall, Bold: true, Ink: text, Align: drawing.Centre},
		},
	}
}
