package chart

import (
	"cmp"
	"image"

	"linemap/internal/export/drawing"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Pictures returns the picture of an underlay and the length on the ground of
// one dot of it, nil where it cannot be had.
type Pictures func(*site.Underlay) (image.Image, unit.Length)

// How floor plans look on paper: faded at least so far that the drain stands
// out, and with no more dots than a printer shows.
const (
	paperDim  = 0.7
	paperDots = 200 / 25.4 // per millimetre: 200 to the inch
)

// floorPlans draws the floor plans of the storey.
func (sd *storeyDraft) floorPlans() {
	for i := range sd.site.Underlays {
		u := &sd.site.Underlays[i]
		if u.Hidden || !sd.whole.has(u.Level) || !finite(u.At.X, u.At.Y) {
			continue
		}
		var img image.Image
		var dot unit.Length
		if sd.pictures != nil {
			img, dot = sd.pictures(u)
		}
		if img == nil {
			sd.missing(u)
			continue
		}
		size := img.Bounds().Size()
		pic := drawing.Picture{
			Image: img, At: point(u.At), Turn: u.Turn.Radians(), Dim: u.Dim,
			W: float64(size.X) * dot.Metres(), H: float64(size.Y) * dot.Metres(),
		}
		shown := pic.Dim < 1
		if sd.board == nil && shown {
			pic.Dim = max(pic.Dim, paperDim)
			pic, shown = pic.Cut(sd.frame, sd.box, paperDots)
		}
		if shown {
			sd.list.Add(drawing.FloorPlan, pic)
		}
	}
}

// missing stands in for a picture that cannot be had: how large it is, is not
// known. A board says so beside it, a paper in its legend.
func (sd *storeyDraft) missing(u *site.Underlay) {
	const size = 14.0
	at, window := point(u.At), sd.ground(sd.box)
	here := window.holds(at)
	if here {
		sd.list.Add(drawing.FloorPlan, drawing.Mark{At: at, Symbol: drawing.Plate, Size: size, Turn: u.Turn.Radians(), Pen: missingPen})
	}
	switch {
	case sd.board == nil && (here || sd.tile == nil):
		sd.saw(sample{kind: sampleMissing, underlay: u.ID})
	case here:
		sd.around(drawing.Notes, at, size/2, line{underlayName(u), styleSmall}, line{"picture missing", styleSmall})
	}
}

// missingEntries name the pictures that cannot be had.
func (d *draft) missingEntries() []entry {
	var all []entry
	for i := range d.site.Underlays {
		u := &d.site.Underlays[i]
		if d.seen[sample{kind: sampleMissing, underlay: u.ID}] {
			name := d.rule.Fit(underlayName(u), false, ptSmall, 60)
			all = append(all, entry{"floor plan missing: " + name, one(drawing.Plate, 7, missingPen, drawing.White)})
		}
	}
	return all
}

func underlayName(u *site.Underlay) string { return cmp.Or(u.Label, u.File, string(u.ID)) }
