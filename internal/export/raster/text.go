package raster

import (
	"math"
	"sync"

	"codeberg.org/go-fonts/dejavu/dejavusanscondensed"
	"codeberg.org/go-fonts/dejavu/dejavusanscondensedbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"linemap/internal/export/drawing"
	"linemap/internal/export/paper"
)

// glyph is the outline of a character, in shares of the text size, y down.
type glyph struct {
	rings   [][]point
	advance float64
}

// letters holds the outlines of the document font, read when first needed.
var letters struct {
	sync.Mutex
	faces  [2]*sfnt.Font
	buf    sfnt.Buffer
	glyphs [2]map[rune]*glyph
}

// outline returns the outline of a character; one that the font lacks is empty.
func outline(c rune, bold bool) *glyph {
	l := &letters
	l.Lock()
	defer l.Unlock()
	i := 0
	if bold {
		i = 1
	}
	if g := l.glyphs[i][c]; g != nil {
		return g
	}
	if l.glyphs[i] == nil {
		l.glyphs[i] = map[rune]*glyph{}
		ttf := [2][]byte{dejavusanscondensed.TTF, dejavusanscondensedbold.TTF}[i]
		face, err := sfnt.Parse(ttf)
		if err != nil {
			panic("the document font is broken: " + err.Error()) // it is built in
		}
		l.faces[i] = face
	}
	g := readGlyph(l.faces[i], &l.buf, c)
	l.glyphs[i][c] = g
	return g
}

// em is the size at which outlines are read.
const em = 1024

func readGlyph(face *sfnt.Font, buf *sfnt.Buffer, c rune) *glyph {
	g := new(glyph)
	index, err := face.GlyphIndex(buf, c)
	if err != nil {
		return g
	}
	size := fixed.I(em)
	if adv, err := face.GlyphAdvance(buf, index, size, font.HintingNone); err == nil {
		g.advance = float64(adv) / 64 / em
	}
	segments, err := face.LoadGlyph(buf, index, size, nil)
	if err != nil {
		return g
	}
	at := func(p fixed.Point26_6) point { return point{float64(p.X) / 64 / em, float64(p.Y) / 64 / em} }
	var ring []point
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if len(ring) > 2 {
				g.rings = append(g.rings, ring)
			}
			ring = []point{at(s.Args[0])}
		case sfnt.SegmentOpLineTo:
			ring = append(ring, at(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			ring = quadratic(ring, at(s.Args[0]), at(s.Args[1]))
		case sfnt.SegmentOpCubeTo:
			ring = bezier(ring, ring[len(ring)-1], at(s.Args[0]), at(s.Args[1]), at(s.Args[2]))
		}
	}
	if len(ring) > 2 {
		g.rings = append(g.rings, ring)
	}
	return g
}

func quadratic(to []point, b, c point) []point {
	const steps = 4
	a := to[len(to)-1]
	for i := 1; i <= steps; i++ {
		t := float64(i) / steps
		u := 1 - t
		to = append(to, point{u*u*a.x + 2*u*t*b.x + t*t*c.x, u*u*a.y + 2*u*t*b.y + t*t*c.y})
	}
	return to
}

// Lettering writes a text.
func (p *Painter) Lettering(t drawing.Text, at drawing.Point) {
	size := t.Style.Pt * paper.MMPerPoint * p.scale
	wide := 0.0
	for _, c := range t.S {
		wide += outline(c, t.Style.Bold).advance * size
	}
	o := point{at.X * p.scale, at.Y * p.scale}
	reach := wide + 2*size
	if !(size > 0 && o.x+reach > float64(p.clip.Min.X) && o.y+reach > float64(p.clip.Min.Y) &&
		o.x-reach < float64(p.clip.Max.X) && o.y-reach < float64(p.clip.Max.Y)) {
		return
	}
	x := 0.0
	switch t.Style.Align {
	case drawing.Centre:
		x = -wide / 2
	case drawing.Right:
		x = -wide
	}
	p.settle()
	p.with(t.Style.Ink)
	if t.Turn == 0 && size < tallest {
		p.print(t, point{o.x + x, o.y}, size)
		return
	}
	sin, cos := math.Sincos(t.Turn)
	for _, c := range t.S { // letters have holes: nothing else may lie among them
		g := outline(c, t.Style.Bold)
		for _, r := range g.rings {
			ring := make([]point, len(r))
			for i, q := range r {
				rx, ry := x+q.x*size, q.y*size
				ring[i] = point{o.x + rx*cos + ry*sin, o.y - rx*sin + ry*cos}
			}
			if p.meets(ring) {
				p.cover.ring(ring, 1)
			}
		}
		x += g.advance * size
	}
	p.settle()
}
