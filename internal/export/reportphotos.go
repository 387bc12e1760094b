package export

import (
	"image"

	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
	"linemap/internal/site"
	"linemap/internal/site/picture"
	"linemap/internal/unit"
)

// photo is a picture of a visit and what stands below it.
type photo struct {
	Caption string
	file    string
}

const (
	// mostPhotos is how many photos a report prints; the others are named.
	mostPhotos = 40
	// photoDots is how many dots a photo has either way at most: 300 to the inch
	// at the width that it is printed at.
	photoDots = 1100
)

// photos sets the photos two to a row, and names those that cannot be printed.
func (p *press) photos(all []photo, folder string) {
	if len(all) == 0 {
		return
	}
	const gutter = 6.0
	half := (p.width - gutter) / 2
	var read picture.Cache
	var cells []flow.Piece
	var missed []string
	for i, ph := range all {
		if i >= mostPhotos {
			missed = append(missed, ph.file+" (one too many)")
			continue
		}
		shown, err := read.Load(&site.Underlay{ID: "photo", Scale: unit.Metres(1), File: ph.file}, folder)
		if err != nil {
			missed = append(missed, err.Error())
			continue
		}
		cells = append(cells, p.photo(ph, shown.AtMost(photoDots), half))
	}
	again := p.heading("Photos (continued)", "", 0)
	g := flow.Group{Lead: 2, Loose: true, Again: &again, Pieces: []flow.Piece{flow.Gap(4), p.heading("Photos", "Photos", 0)}}
	for i := 0; i < len(cells); i += 2 {
		row := []flow.Column{{Pieces: cells[i : i+1]}}
		if i+1 < len(cells) {
			row = append(row, flow.Column{X: half + gutter, Pieces: cells[i+1 : i+2]})
		}
		g.Pieces = append(g.Pieces, flow.Columns(row...), flow.Gap(3))
	}
	for _, s := range missed {
		g.Pieces = append(g.Pieces, p.paragraph("Not printed: "+s, bodyStyle, 0, p.width, 2))
	}
	p.pages.Add(g)
}

// photo is one photo over its caption.
func (p *press) photo(ph photo, img image.Image, width float64) flow.Piece {
	const tallest = 0.75 // of the width
	size := img.Bounds().Size()
	h := min(width*float64(size.Y)/float64(size.X), width*tallest)
	lines := p.lines(ph.Caption, bodyStyle, width, 2)
	return flow.Piece{Height: h + 1 + height(len(lines), bodyStyle), Draw: func(x, y float64) {
		p.Photo(paper.Box{X: x, Y: y, W: width, H: h}, img)
		p.text(x, y+h+1, lines, bodyStyle)
	}}
}
