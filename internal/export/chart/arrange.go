package chart

import (
	"errors"

	"linemap/internal/export/drawing"
	"linemap/internal/unit"
)

// Room around a storey's drawing for its labels, its title and the least size
// of a panel, in millimetres.
const (
	padX, padY  = 11.0, 8.0
	titleHeight = 6.5
	leastWidth  = 44.0
	leastHeight = 24.0
)

// furtherScale bounds how much smaller than the main plan the other storeys of
// a page may be drawn, and sharedScale how much smaller than on a page of its
// own a plan may be drawn to make room for others.
const (
	furtherScale = 2.5
	sharedScale  = 2.5
)

var errTooLarge = errors.New("map: the site does not fit on a page at any scale")

// layout is the storeys of one page, where their panels lie and how large they
// are drawn.
type layout struct {
	storeys []*storey
	boxes   []drawing.Box
	dens    []float64 // scale denominators
}

// pages spreads the storeys over as few pages as keep each readable: one for
// most buildings, more for a tower.
func pages(all []*storey, area drawing.Box, sys unit.System) ([]layout, error) {
	var done []layout
	for len(all) > 0 {
		page, err := arrange(all[:1], area, sys)
		if err != nil {
			return nil, err
		}
		alone := page.dens[0]
		if whole, err := arrange(all, area, sys); err == nil && whole.dens[0] <= sharedScale*alone {
			return append(done, whole), nil
		}
		for k := 2; k <= len(all); k++ {
			more, err := arrange(all[:k], area, sys)
			if err != nil || more.dens[0] > sharedScale*alone {
				break
			}
			page = more
		}
		done, all = append(done, page), all[len(page.storeys):]
	}
	return done, nil
}

// arrange picks the largest scale at which all storeys fit into area, and
// their panels. The storeys above the main one may be drawn smaller where that
// lets the main one be larger.
func arrange(all []*storey, area drawing.Box, sys unit.System) (layout, error) {
	offer := scales(sys)
	for i, main := range offer {
		for _, rest := range offer[i:] {
			if rest > furtherScale*main {
				break
			}
			if boxes := fit(all, area, main, rest); boxes != nil {
				l := layout{storeys: all, boxes: boxes, dens: make([]float64, len(all))}
				for k := range all {
					l.dens[k] = rest
				}
				l.dens[0] = main
				return l, nil
			}
			if len(all) == 1 {
				break
			}
		}
	}
	return layout{}, errTooLarge
}

// fit lays the panels out, the main one at the top with rows below it or at
// the left with columns beside it, and stretches them to fill the area; nil
// where they do not fit.
func fit(all []*storey, area drawing.Box, main, rest float64) []drawing.Box {
	need := make([]drawing.Box, len(all))
	for i, st := range all {
		den := rest
		if i == 0 {
			den = main
		}
		w, h := st.box.size()
		need[i].W = max(leastWidth, w*fullSize/den+2*padX)
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

// frame centres a storey's ground in its panel, below the title.
func frame(st *storey, box drawing.Box, den float64) drawing.Frame {
	mid := st.box.min.Add(st.box.max).Scale(0.5)
	return drawing.Frame{
		Ground: mid,
		Paper:  drawing.Point{X: box.X + box.W/2, Y: box.Y + titleHeight + (box.H-titleHeight)/2},
		Scale:  fullSize / den,
	}
}
