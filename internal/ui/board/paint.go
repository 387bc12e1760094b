package board

import (
	"image"
	"math"
	"sync"

	"linemap/internal/export/chart"
	"linemap/internal/export/drawing"
	"linemap/internal/export/raster"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/ui/look"
	"linemap/internal/ui/view"
	"linemap/internal/unit"
)

// job is a picture to paint.
type job struct {
	// site is a copy of the document that nobody changes; plan may be nil.
	site *site.Site
	plan *route.Plan
	opt  chart.BoardOptions
	// view is that of the bitmap, which is larger than the board; density is
	// its dots per pixel of the screen.
	view    view.View
	density float64
	look    look.Look
	grid    bool
}

// sameDrawing reports whether two jobs draw the same things, be it in another
// view.
func (j *job) sameDrawing(o *job) bool {
	return j.site == o.site && j.plan == o.plan &&
		j.opt.Level == o.opt.Level && j.opt.Ghost == o.opt.Ghost && j.opt.ShowPlan == o.opt.ShowPlan && j.opt.ShowLays == o.opt.ShowLays
}

// picture is a bitmap of the drawing and what it shows.
type picture struct {
	img *image.RGBA
	job *job
	err error
}

// painter paints pictures one after the other in a goroutine of its own, that
// rests when there is nothing to do. Of the jobs that wait only the last counts.
type painter struct {
	done func(*picture)

	mu      sync.Mutex
	next    *job
	running bool

	// The drawing prepared last; only the goroutine at work touches it.
	drawn   *job
	drawing *chart.Board
}

func newPainter(done func(*picture)) *painter { return &painter{done: done} }

// paint asks for a picture.
func (p *painter) paint(j *job) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.next = j
	if !p.running {
		p.running = true
		go p.work()
	}
}

func (p *painter) work() {
	for {
		p.mu.Lock()
		j := p.next
		p.next = nil
		if j == nil {
			p.running = false
			p.mu.Unlock()
			return
		}
		p.mu.Unlock()
		p.done(p.picture(j))
	}
}

// busy reports whether a picture is being painted.
func (p *painter) busy() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.running
}

// picture paints one picture.
func (p *painter) picture(j *job) (pic *picture) {
	pic = &picture{job: j}
	defer func() {
		if fault := recover(); fault != nil {
			pic.img, pic.err = nil, faultError{fault}
		}
	}()
	if p.drawn == nil || !p.drawn.sameDrawing(j) {
		g, _ := network.Trace(&j.site.Network)
		b, err := chart.NewBoard(j.site, g, j.plan, j.opt)
		if err != nil {
			pic.err = err
			return pic
		}
		p.drawn, p.drawing = j, b
	}
	w, h := int(math.Round(j.view.W*j.density)), int(math.Round(j.view.H*j.density))
	if w <= 0 || h <= 0 {
		return pic
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	fill(img, j.look.Paper)
	const mm = view.PixelsPerMM
	frame := drawing.Frame{
		Ground: drawing.Point{X: j.view.Centre.X.Metres(), Y: j.view.Centre.Y.Metres()},
		Paper:  drawing.Point{X: j.view.W / 2 / mm, Y: j.view.H / 2 / mm},
		Scale:  j.view.Scale / mm,
	}
	sheet := &drawing.Sheet{W: j.view.W / mm, H: j.view.H / mm}
	if j.grid {
		sheet.Panels = append(sheet.Panels, drawing.Panel{List: gridLines(j.view, j.site.Units)})
	}
	sheet.Panels = append(sheet.Panels, p.drawing.Panel(frame, sheet.W, sheet.H))
	paintSheet(img, sheet, mm*j.density, j.look)
	pic.img = img
	return pic
}

// Thumbnail paints a small picture of a whole site.
func Thumbnail(s *site.Site, w, h int, l look.Look) (image.Image, error) {
	const density = 2 // for screens with fine dots
	level := s.MainLevel()
	v := view.View{W: float64(w) / density, H: float64(h) / density, Scale: 1}.Fit(places(s, func(l string) bool { return l == level }), 10)
	j := &job{site: s, view: v, density: density, look: l, opt: chart.BoardOptions{Units: s.Units, Ghost: true, Level: level}}
	pic := new(painter).picture(j)
	return pic.img, pic.err
}

// Signs paints the legend of everything that a board can show, at twice the
// size that it has there.
func Signs(sys unit.System, l look.Look) (image.Image, error) {
	const wide, dots = 120, 2 * view.PixelsPerMM
	sheet, err := chart.Signs(sys, wide)
	if err != nil {
		return nil, err
	}
	img := image.NewRGBA(image.Rect(0, 0, int(sheet.W*dots), int(sheet.H*dots)))
	fill(img, l.Paper)
	paintSheet(img, sheet, dots, l)
	return img, nil
}

func paintSheet(img *image.RGBA, sheet *drawing.Sheet, dotsPerMM float64, l look.Look) {
	brush := raster.New(img, dotsPerMM)
	brush.Inks = l.Ink
	drawing.Paint(sheet, brush)
	brush.Flush()
}

// gridLines draws the grid in millimetres of the bitmap.
func gridLines(v view.View, sys unit.System) drawing.List {
	const mm = view.PixelsPerMM
	var l drawing.List
	weak := drawing.Pen{Width: 0.12, Ink: drawing.Faint.Tint(0.6)}
	strong := drawing.Pen{Width: 0.2, Ink: drawing.Faint}
	x, y := v.Lines(v.Grid(sys))
	line := func(strongly bool, a, b drawing.Point) {
		pen := weak
		if strongly {
			pen = strong
		}
		l.Add(drawing.Base, drawing.Path{Points: []drawing.Point{a, b}, Pen: pen})
	}
	for _, strongly := range []bool{false, true} {
		for _, g := range x {
			if g.Strong == strongly {
				line(strongly, drawing.Point{X: g.At / mm}, drawing.Point{X: g.At / mm, Y: v.H / mm})
			}
		}
		for _, g := range y {
			if g.Strong == strongly {
				line(strongly, drawing.Point{Y: g.At / mm}, drawing.Point{X: v.W / mm, Y: g.At / mm})
			}
		}
	}
	return l
}

// fill covers a bitmap with one colour.
func fill(img *image.RGBA, c drawing.Colour) {
	if len(img.Pix) == 0 {
		return
	}
	img.Pix[0], img.Pix[1], img.Pix[2], img.Pix[3] = c.R, c.G, c.B, 255
	for n := 4; n < len(img.Pix); n *= 2 {
		copy(img.Pix[n:], img.Pix[:n])
	}
}

// faultError is a panic of the painter.
type faultError struct{ fault any }

func (e faultError) Error() string {
	return "a fault in drawing the board, please report it: " + sprint(e.fault)
}
