package chart

import (
	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/unit"
)

// Text sizes in points.
const (
	ptSmall = 6.5
	ptName  = 7.5
	ptHead  = 9
	ptTitle = 11
)

// weight is the line weight of a pipe by its nominal size, in millimetres.
func weight(s unit.Size) float64 {
	for _, row := range weights {
		if s <= row.upTo {
			return row.width
		}
	}
	return weights[len(weights)-1].width
}

var weights = []struct {
	upTo  unit.Size
	width float64
}{
	{1.5, 0.3}, {2, 0.45}, {3, 0.65}, {4, 0.9}, {6, 1.2}, {8, 1.5}, {24, 1.8},
}

// dash is the line pattern of a material in millimetres: plastic solid, iron
// broken, clay and concrete chained.
func dash(m network.Material) []float64 {
	switch m {
	case network.CastIron:
		return []float64{3.4, 0.8}
	case network.Clay, network.Concrete:
		return []float64{4.2, 0.8, 0.9, 0.8}
	}
	return nil
}

// materialLetters are the trade's letters for a material.
func materialLetters(m network.Material) string {
	switch m {
	case network.PVC40:
		return "PVC"
	case network.ABS40:
		return "ABS"
	case network.CastIron:
		return "CI"
	case network.Clay:
		return "VCP"
	case network.Concrete:
		return "CONC"
	}
	return ""
}

// pipePen draws a pipe.
func pipePen(p *network.Pipe) drawing.Pen {
	pen := drawing.Pen{Width: weight(p.Size), Ink: drawing.Black, Dash: dash(p.Material)}
	if p.OutOfJob {
		pen.Ink = drawing.Pale
	}
	return pen
}

// A run's ribbon: how far it reaches past the pipe on both sides, and its edge.
const (
	ribbonReach = 1.0
	ribbonEdge  = 0.22
	ribbonTint  = 0.42
)

// ribbonInks colour neighbouring runs differently; the numbers tell them
// apart, the inks only help the eye along.
var ribbonInks = []drawing.Colour{drawing.SkyBlue, drawing.Orange, drawing.Green, drawing.Purple, drawing.Yellow}

// Pens.
var (
	layPen     = drawing.Pen{Width: 0.5, Ink: drawing.Blue, Dash: []float64{2, 1.3}}
	supplyPen  = drawing.Pen{Width: 0.45, Ink: drawing.Green, Dash: []float64{0, 1.4}, Round: true}
	tilePen    = drawing.Pen{Width: 0.3, Ink: drawing.Grey, Dash: []float64{5, 1.5, 1, 1.5}}
	leaderPen  = drawing.Pen{Width: 0.18, Ink: drawing.Grey}
	thinPen    = drawing.Pen{Width: 0.25, Ink: drawing.Black}
	usedPen    = drawing.Pen{Width: 0.7, Ink: drawing.Black}
	ringPen    = drawing.Pen{Width: 0.5, Ink: drawing.Black}
	framePen   = drawing.Pen{Width: 0.25, Ink: drawing.Pale}
	missingPen = drawing.Pen{Width: 0.35, Ink: drawing.Grey, Dash: []float64{1.6, 1}}
	ghostPen   = drawing.Pen{Width: 0.45, Ink: drawing.Pale}
	crossPen   = drawing.Pen{Width: 0.4, Ink: drawing.Vermillion}
)

// Sizes of symbols in millimetres.
const (
	accessSize  = 2.6
	fixtureSize = 1.3
	stackSize   = 2.8
	spotSize    = 7.0
	waterSize   = 3.2
	outletSize  = 4.0
	dotSize     = 0.9
	tagSize     = 4.5
	smallTag    = 3.6
	wedgeSize   = 2.8
	noteSize    = 2.6
)

// A note's sign.
const noteSign = drawing.Slip

var noteInk = drawing.Yellow

// ink returns a pointer for the optional fills of shapes.
func ink(c drawing.Colour) *drawing.Colour { return &c }

// accessLook is the symbol of an opening and its size.
func accessLook(kind network.AccessKind) (drawing.Symbol, float64) {
	switch kind {
	case network.CatchBasin, network.PulledFixture:
		return drawing.Square, accessSize * 0.9
	case network.Manhole:
		return drawing.Disc, accessSize * 1.35
	}
	return drawing.Disc, accessSize
}
