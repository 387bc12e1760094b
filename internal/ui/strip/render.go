package strip

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/export/drawing"
	"linemap/internal/export/raster"
	"linemap/internal/ui/look"
)

// staleWords stand on the strip while the plan is older than the sketch.
const staleWords = "Plan of an older sketch"

// renderer lays the few live things over the bitmap.
type renderer struct {
	s       *Strip
	bitmap  *canvas.Raster
	frame   *canvas.Rectangle // of the event under the pointer
	lit     *canvas.Rectangle // of the run that is lit
	marker  *canvas.Line
	flag    *canvas.Rectangle
	time    *canvas.Text
	words   *canvas.Text
	stale   *canvas.Text
	focus   *canvas.Rectangle
	message *widget.Label
}

// CreateRenderer is for Fyne.
func (s *Strip) CreateRenderer() fyne.WidgetRenderer {
	r := &renderer{
		s: s, frame: canvas.NewRectangle(color.Transparent), lit: canvas.NewRectangle(color.Transparent),
		marker: canvas.NewLine(color.Black), flag: canvas.NewRectangle(color.Black),
		time: canvas.NewText("", color.White), words: canvas.NewText("", color.Black), stale: canvas.NewText("", color.Black),
		focus: canvas.NewRectangle(color.Transparent), message: widget.NewLabel(""),
	}
	r.bitmap = canvas.NewRaster(r.paint)
	r.message.Wrapping = fyne.TextWrapWord
	r.message.Alignment = fyne.TextAlignCenter
	r.stale.TextStyle.Bold, r.time.TextStyle.Bold = true, true
	r.frame.StrokeWidth, r.lit.StrokeWidth, r.focus.StrokeWidth, r.marker.StrokeWidth = 2, 3, 2, 2
	r.flag.CornerRadius = 3
	r.refresh()
	s.shown = r
	return r
}

// Destroy stops the day.
func (r *renderer) Destroy() { r.s.Pause() }

// IsClip keeps what is drawn within the strip.
func (r *renderer) IsClip() {}

// Objects is for Fyne.
func (r *renderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{
		r.bitmap, r.lit, r.frame, r.marker, r.flag, r.time, r.words, r.stale, r.message, r.focus,
	}
}

// MinSize is for Fyne.
func (r *renderer) MinSize() fyne.Size {
	return fyne.NewSize(320, float32(math.Ceil(leastHeight(lineHeight()))))
}

// Layout is for Fyne.
func (r *renderer) Layout(size fyne.Size) {
	if d := r.s.day; d != nil { // the same stretch of the day, as wide as there is room
		fit := r.s.fit()
		r.s.span.left, r.s.span.width = fit.left, fit.width
	}
	r.bitmap.Resize(size)
	r.focus.Resize(size)
	r.message.Resize(fyne.NewSize(max(0, size.Width-20), r.message.MinSize().Height))
	r.message.Move(fyne.NewPos(10, max(0, (size.Height-r.message.MinSize().Height)/2)))
	r.overlay()
}

// Refresh paints everything anew.
func (r *renderer) Refresh() {
	r.refresh()
	r.Layout(r.s.Size())
	canvas.Refresh(r.s)
}

// refresh takes colours and sizes from the theme.
func (r *renderer) refresh() {
	size := float32(textSize())
	r.time.TextSize, r.words.TextSize, r.stale.TextSize = size, size, size
	l := lookNow()
	r.words.Color = theme.Color(theme.ColorNameForeground)
	r.stale.Color = l.Colour(drawing.Vermillion, 1)
	r.frame.StrokeColor = theme.Color(theme.ColorNameForeground)
	r.lit.StrokeColor = l.Colour(drawing.Vermillion, 1)
	r.focus.StrokeColor = theme.Color(theme.ColorNameFocus)
	r.marker.StrokeColor = l.Colour(drawing.Vermillion, 1)
	r.flag.FillColor = l.Colour(drawing.Vermillion, 1)
	r.time.Color = l.Colour(drawing.White, 1)
	r.message.SetText(r.s.message)
}

// lookNow is the look of the theme in force.
func lookNow() look.Look {
	red, green, blue, _ := theme.Color(theme.ColorNameBackground).RGBA()
	return look.For(0.2126*float64(red)+0.7152*float64(green)+0.0722*float64(blue) < 0x8000)
}

// over brings the live things up to date, without painting the bitmap.
func (s *Strip) over() {
	if s.shown != nil {
		s.shown.overlay()
	}
}

// overlay puts the live things in their places.
func (r *renderer) overlay() {
	s := r.s
	on := s.day != nil
	show(r.message, !on)
	show(r.bitmap, on)
	show(r.focus, s.focused)
	for _, o := range []fyne.CanvasObject{r.marker, r.flag, r.time, r.words} {
		show(o, on)
	}
	show(r.stale, on && s.stale)
	if !on {
		show(r.frame, false)
		show(r.lit, false)
		return
	}
	rows := s.stack()
	r.putLit(rows)
	r.putFrame(rows)
	r.putMarker(rows)
	r.putWords(rows)
}

func (r *renderer) putLit(rows rows) {
	run := r.s.chosen
	if r.s.lit > 0 {
		run = r.s.lit
	}
	sec := r.s.day.section(run)
	show(r.lit, sec != nil)
	if sec != nil {
		r.between(r.lit, r.s.span.x(sec.from), r.s.span.x(sec.to), rows.runs.y, rows.crew.bottom())
	}
}

func (r *renderer) putFrame(rows rows) {
	p := r.s.hover
	show(r.frame, p.event >= 0)
	if p.event < 0 {
		return
	}
	if sec := r.s.day.section(p.run); sec != nil && p.whole {
		r.between(r.frame, r.s.span.x(sec.from), r.s.span.x(sec.to), rows.runs.y, rows.crew.bottom())
		return
	}
	e := &r.s.day.plan.Day[p.event]
	top, bottom := rows.crew.y, rows.crew.bottom()
	if p.ofTime {
		top, bottom = rows.tank.y, rows.tank.bottom()
	}
	r.between(r.frame, r.s.span.x(e.Start), r.s.span.x(e.Start+e.Takes), top, bottom)
}

// between lays a frame about what lies between two times, as far as it is seen.
func (r *renderer) between(o *canvas.Rectangle, x0, x1, top, bottom float64) {
	sp := r.s.span
	x0, x1 = max(x0, sp.left-4), min(x1, sp.left+sp.width+4)
	o.Move(fyne.NewPos(float32(x0-1), float32(top)))
	o.Resize(fyne.NewSize(float32(max(3, x1-x0+2)), float32(bottom-top+1)))
	show(o, x1 > sp.left && x0 < sp.left+sp.width)
}

func (r *renderer) putMarker(rows rows) {
	s := r.s
	x := float32(s.span.x(s.time))
	seen := s.time >= s.span.from && s.time <= s.span.to()
	for _, o := range []fyne.CanvasObject{r.marker, r.flag, r.time} {
		show(o, seen)
	}
	if !seen {
		return
	}
	r.marker.Position1 = fyne.NewPos(x, 0)
	r.marker.Position2 = fyne.NewPos(x, float32(rows.tank.bottom()))
	r.time.Text = export.Clock(s.day.site, s.time)
	text := r.time.MinSize()
	size := fyne.NewSize(text.Width+8, float32(rows.clock.h))
	left := x
	if left+size.Width > s.Size().Width {
		left = x - size.Width
	}
	r.flag.Move(fyne.NewPos(left, 0))
	r.flag.Resize(size)
	r.time.Move(fyne.NewPos(left+4, (size.Height-text.Height)/2))
	r.time.Resize(text)
	canvas.Refresh(r.time)
	canvas.Refresh(r.marker)
}

func (r *renderer) putWords(rows rows) {
	s := r.s
	room := s.Size().Width - 2*margin
	middle := float32(rows.words.y + rows.words.h/2)
	if s.stale {
		r.stale.Text = staleWords
		size := r.stale.MinSize()
		r.stale.Move(fyne.NewPos(s.Size().Width-margin-size.Width, middle-size.Height/2))
		r.stale.Resize(size)
		room -= size.Width + 2*margin
	}
	words := s.words()
	if words = cut(words, room, r.words); words != r.words.Text {
		r.words.Text = words
		canvas.Refresh(r.words)
	}
	size := r.words.MinSize()
	r.words.Move(fyne.NewPos(margin, middle-size.Height/2))
	r.words.Resize(size)
}

// words tell of what is pointed at, else of what happens at the marker, else of the
// whole day.
func (s *Strip) words() string {
	switch at := s.day.at(s.time); {
	case s.hover.whole:
		return s.day.runWords(s.hover.run)
	case s.hover.event >= 0:
		return s.day.eventWords(s.hover.event)
	case s.time > 0 && at >= 0:
		return s.day.eventWords(at)
	}
	return s.day.allWords()
}

// cut cuts a line to a width, at the end of a word.
func cut(s string, room float32, as *canvas.Text) string {
	wide := func(s string) float32 { return fyne.MeasureText(s, as.TextSize, as.TextStyle).Width }
	if wide(s) <= room {
		return s
	}
	for s != "" && wide(s+" …") > room {
		s = s[:max(0, strings.LastIndexByte(s, ' '))]
	}
	return strings.TrimRight(s, " ,.:") + " …"
}

// show shows or hides an object.
func show(o fyne.CanvasObject, on bool) {
	if on && !o.Visible() {
		o.Show()
	} else if !on && o.Visible() {
		o.Hide()
	}
}

// paint paints the bitmap.
func (r *renderer) paint(w, h int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	size := r.s.Size()
	if r.s.day == nil || w < 1 || h < 1 || size.Width < 1 {
		return img
	}
	p := &picture{day: r.s.day, span: r.s.span, rows: r.s.stack(), size: textSize(), look: lookNow(), ruler: r.s.ruler}
	ground := theme.Color(theme.ColorNameBackground)
	draw.Draw(img, img.Bounds(), image.NewUniform(ground), image.Point{}, draw.Src)
	painter := raster.New(img, float64(w)/float64(size.Width))
	painter.Inks = p.look.Ink
	if r.s.stale {
		painter.Inks = faded(p.look.Ink, ground)
	}
	drawing.Paint(p.sheet(float64(size.Width), float64(size.Height)), painter)
	painter.Flush()
	return img
}

// faded mixes inks with the ground.
func faded(ink func(drawing.Colour) drawing.Colour, ground color.Color) func(drawing.Colour) drawing.Colour {
	red, green, blue, _ := ground.RGBA()
	return func(c drawing.Colour) drawing.Colour {
		c = ink(c)
		mix := func(v uint8, g uint32) uint8 { return uint8(0.4*float64(v) + 0.6*float64(g>>8)) }
		return drawing.Colour{R: mix(c.R, red), G: mix(c.G, green), B: mix(c.B, blue)}
	}
}
