package chart

import (
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/export/label"
	"linemap/internal/export/paper"
)

// line is one line of a label.
type line struct {
	s     string
	style drawing.Style
}

// reach is how far from what it names a label may be moved, in millimetres.
const reach = 42.0

// widest is where a label's line is cut, in millimetres.
const widest = 58.0

// mm is the height of a text line within a label.
func mm(pt float64) float64 { return 1.12 * pt * paper.MMPerPoint }

// around adds a label beside a mark of radius r at a place on the ground.
func (sd *storeyDraft) around(layer drawing.Layer, at drawing.Point, r float64, lines ...line) {
	if sd.mute() {
		return
	}
	b := sd.block(lines)
	sd.notes = append(sd.notes, note{
		layer: layer, rank: sd.rank,
		places: func() []label.Candidate { return sd.beside(sd.frame.To(at), r, b.w+sd.air(), b.h) },
		draw:   func(c label.Candidate) []drawing.Shape { return sd.lettering(c, b) },
	})
}

// air is the blank on paper at the ends of a label's lines, so that labels side by
// side do not read as one, in millimetres.
func (sd *storeyDraft) air() float64 {
	if sd.board != nil {
		return 0
	}
	return 0.8
}

// beside lists the places of a box beside a mark. On a board, where labels come
// and go with the scale, and on a crowded overview, a label stands next to what it
// names or not at all.
func (sd *storeyDraft) beside(at drawing.Point, r, w, h float64) []label.Candidate {
	if sd.board != nil || sd.sketchy() {
		return label.Near(at, r, w, h)
	}
	return label.Around(at, r, w, h, reach)
}

// farthest is how far from what it letters a tag may be moved.
func (sd *storeyDraft) farthest() float64 {
	switch {
	case sd.board != nil:
		return reach / 6
	case sd.overview():
		return reach / 4
	}
	return reach
}

// optional lets the label added last be left out where its place would cost
// more than drop.
func (sd *storeyDraft) optional(drop float64) {
	if sd.mute() {
		return
	}
	n := &sd.notes[len(sd.notes)-1]
	n.optional, n.drop = true, drop
}

// spare lets the label added last be left out of an overview that is crowded.
func (sd *storeyDraft) spare() {
	if sd.sketchy() {
		sd.optional(dropStack)
	}
}

// heads adds the title of a part of the paper: at its top left corner, or where
// else along its upper or lower edge it covers least.
func (sd *storeyDraft) heads(part drawing.Box, lines ...line) {
	b := sd.block(lines)
	sd.notes = append(sd.notes, note{
		layer: drawing.Notes, title: true,
		places: func() []label.Candidate { return label.Inside(part, b.w, b.h) },
		draw:   func(c label.Candidate) []drawing.Shape { return sd.lettering(c, b) },
	})
}

// fixed adds a text with its top left corner at a place of the paper.
func (sd *storeyDraft) fixed(at drawing.Point, lines ...line) {
	b := sd.block(lines)
	c := label.Candidate{Box: label.Box{
		Centre: drawing.Point{X: at.X + b.w/2, Y: at.Y + b.h/2}, HalfW: b.w / 2, HalfH: b.h / 2,
	}}
	sd.notes = append(sd.notes, note{
		layer: drawing.Notes, title: true,
		places: func() []label.Candidate { return []label.Candidate{c} },
		draw:   func(c label.Candidate) []drawing.Shape { return sd.lettering(c, b) },
	})
}

// block is a label's lines with their measures.
type block struct {
	lines []line
	wide  []float64
	w, h  float64
}

// block measures lines, leaving out empty ones.
func (d *draft) block(lines []line) block {
	var b block
	for _, l := range lines {
		l.s = d.rule.Fit(l.s, l.style.Bold, l.style.Pt, widest)
		if strings.TrimSpace(l.s) == "" {
			continue
		}
		wide := d.rule.Width(l.s, l.style.Bold, l.style.Pt)
		b.lines, b.wide = append(b.lines, l), append(b.wide, wide)
		b.w, b.h = max(b.w, wide), b.h+mm(l.style.Pt)
	}
	return b
}

// lettering draws a label in the place found for it, in paper offsets from the
// place's centre so that it keeps its shape at any zoom.
func (sd *storeyDraft) lettering(c label.Candidate, b block) []drawing.Shape {
	var shapes []drawing.Shape
	centre := sd.frame.From(c.Box.Centre)
	if len(c.Leader) == 2 {
		shapes = append(shapes, sd.leader(c))
	}
	x := 0.0
	switch c.Align {
	case drawing.Left:
		x = -b.w / 2
	case drawing.Right:
		x = b.w / 2
	}
	y := -b.h / 2
	for i, l := range b.lines {
		size := mm(l.style.Pt)
		shapes = append(shapes, drawing.Text{
			At: centre, Off: drawing.Point{X: x, Y: y + 0.8*size}, S: l.s, Wide: b.wide[i],
			Style: l.style.Set(c.Align), Plate: ink(drawing.White), Pad: 0.1,
		})
		y += size
	}
	return shapes
}

// leader joins a label to what it names.
func (sd *storeyDraft) leader(c label.Candidate) drawing.Shape {
	return drawing.Leader{
		At: sd.frame.From(c.Leader[0]), To: c.Leader[1].Sub(c.Leader[0]), Pen: leaderPen,
	}
}

// badge adds a short text in a filled disc or square: the number of a run or
// the letter of a shortfall.
// One of few letters is as wide as high.
func (sd *storeyDraft) badge(layer drawing.Layer, s string, sym drawing.Symbol, fill, text drawing.Colour, places func(w, h float64) []label.Candidate) {
	if sd.mute() {
		return
	}
	pt, least := float64(ptName), tagSize
	if sd.weight() < arrowWeight { // among thin lines
		pt, least = ptSmall, smallTag
	}
	style := drawing.Style{Pt: pt, Bold: true, Ink: text, Align: drawing.Centre}
	wide := sd.rule.Width(s, true, pt)
	w, h := badgeSize(s, wide, least)
	sd.notes = append(sd.notes, note{
		layer: layer, rank: sd.rank,
		places: func() []label.Candidate { return places(w, h) },
		draw: func(c label.Candidate) []drawing.Shape {
			var shapes []drawing.Shape
			if len(c.Leader) == 2 {
				shapes = append(shapes, sd.leader(c))
			}
			at := sd.frame.From(c.Box.Centre)
			return append(shapes,
				drawing.Mark{At: at, Symbol: sym, Size: h, Longer: w - h, Pen: drawing.Pen{Width: 0.35, Ink: drawing.Black}, Fill: ink(fill)},
				drawing.Text{At: at, Off: drawing.Point{Y: capital(pt) / 2}, S: s, Wide: wide, Style: style})
		},
	})
}

// fewLetters is how many a badge that is as wide as high has at most.
const fewLetters = 2

// badgeSize is how large the badge of a text is that is so wide.
func badgeSize(s string, wide, least float64) (w, h float64) {
	if len(s) <= fewLetters {
		w = max(least, wide+1.3)
		return w, w
	}
	return max(least, wide+2), least
}

// capital is the height of a capital letter.
func capital(pt float64) float64 { return paper.CapHeight * pt * paper.MMPerPoint }
