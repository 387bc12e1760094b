package chart

import (
	"errors"
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/unit"
)

// Room around a storey's drawing for its labels (within bounds, as its labels
// need), its title and the least size of a panel, in millimetres.
const (
	padLeast, padMost = 9.0, 24.0
	padY              = 9.0
	titleHeight       = 6.5
	leastWidth        = 44.0
	leastHeight       = 24.0
)

// mixed bounds how different the two scales of one page may be.
const mixed = 6.0

var errTooLarge = errors.New("map: the site does not fit on a page at any scale")

// panel is a storey, or a part of it, in its place on a page.
type panel struct {
	st  *storey
	box drawing.Box
	mid drawing.Point // the place of the ground in the middle
	den float64       // scale denominator
	// tile, where set, is the part of the storey shown.
	tile *tile
	// index, where set, are the tiles that show the storey's details; the panel
	// is an overview then.
	index []*tile
}

// page is one sheet of the map in the making.
type page struct {
	panels []panel
	toil   float64
}

// arrange lays storeys out on one page: of all pairs of scales, one for the
// main plan and one for the others, the pair that is easiest to read, and of
// equals the largest. Without the main plan there is one scale.
func arrange(all []*storey, area drawing.Box, sys unit.System) (page, error) {
	offer := scales(sys)
	best := page{toil: math.Inf(1)}
	boxes := align(all)
	for _, main := range offer {
		if all[0].toil(main) >= best.toil {
			break
		}
		for _, rest := range offer {
			if (len(all) == 1 || !all[0].main) && rest != main {
				continue
			}
			if rest > mixed*main || main > mixed*rest {
				continue
			}
			toil := all[0].toil(main)
			for _, st := range all[1:] {
				toil += st.toil(rest)
			}
			if toil >= best.toil {
				break
			}
			if places := fit(all, boxes, area, main, rest); places != nil {
				best = page{toil: toil}
				for i, st := range all {
					den := rest
					if i == 0 {
						den = main
					}
					best.panels = append(best.panels, panel{st: st, box: places[i], mid: boxes[i].middle(), den: den})
				}
			}
		}
	}
	if best.panels == nil {
		return best, errTooLarge
	}
	return best, nil
}

// aligned bounds how much wider a storey's panel may get to line up with the
// others.
const aligned = 1.4

// align returns the extents of the storeys of a page. Those above the main one
// get the same reach from west to east, so that a stack stands in line in
// panels one below the other, unless they lie too far apart.
func align(all []*storey) []extent {
	boxes := make([]extent, len(all))
	common := nowhere()
	wide := 0.0
	for i, st := range all {
		boxes[i] = st.box
		if !st.main {
			common.add(st.box.min)
			common.add(st.box.max)
			w, _ := st.box.size()
			wide = max(wide, w)
		}
	}
	if w, _ := common.size(); w > aligned*wide {
		return boxes
	}
	for i, st := range all {
		if !st.main {
			boxes[i].min.X, boxes[i].max.X = common.min.X, common.max.X
		}
	}
	return boxes
}

// fit lays the panels out, the main one at the top with rows below it or at
// the left with columns beside it, and stretches them to fill the area; nil
// where they do not fit.
func fit(all []*storey, ground []extent, area drawing.Box, main, rest float64) []drawing.Box {
	need := make([]drawing.Box, len(all))
	for i, st := range all {
		den := rest
		if i == 0 {
			den = main
		}
		w, h := ground[i].size()
		need[i].W = max(leastWidth, w*fullSize/den+2*st.pad)
		need[i].H = max(leastHeight, h*fullSize/den+2*padY+titleHeight)
	}
	if boxes := rows(need, area); boxes != nil {
		return boxes
	}
	// Columns are rows of the area laid on its side.
	for i := range need {
		need[i] = turned(need[i])
	}
	boxes := rows(need, turned(area))
	for i := range boxes {
		boxes[i] = turned(boxes[i])
	}
	return boxes
}

func turned(b drawing.Box) drawing.Box { return drawing.Box{X: b.Y, Y: b.X, W: b.H, H: b.W} }

// rows sets the first panel across the whole width and the others in rows
// below it.
func rows(need []drawing.Box, area drawing.Box) []drawing.Box {
	type row struct {
		from, to int
		w, h     float64
	}
	var all []row
	for i, b := range need {
		if b.W > area.W {
			return nil
		}
		last := len(all) - 1
		if i < 2 || all[last].w+b.W > area.W {
			all = append(all, row{i, i + 1, b.W, b.H})
			continue
		}
		all[last].to, all[last].w = i+1, all[last].w+b.W
		all[last].h = max(all[last].h, b.H)
	}
	height := 0.0
	for _, r := range all {
		height += r.h
	}
	if height > area.H {
		return nil
	}
	// Spare room goes to the panels in proportion to what they need.
	taller := area.H / height
	boxes := make([]drawing.Box, len(need))
	y := area.Y
	for _, r := range all {
		x, wider := area.X, area.W/r.w
		for i := r.from; i < r.to; i++ {
			boxes[i] = drawing.Box{X: x, Y: y, W: need[i].W * wider, H: r.h * taller}
			x += boxes[i].W
		}
		y += r.h * taller
	}
	return boxes
}

// frame centres a place of the ground in a panel, below its title.
func frame(mid drawing.Point, box drawing.Box, den float64) drawing.Frame {
	return drawing.Frame{
		Ground: mid,
		Paper:  drawing.Point{X: box.X + box.W/2, Y: box.Y + titleHeight + (box.H-titleHeight)/2},
		Scale:  fullSize / den,
	}
}
