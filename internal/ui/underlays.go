package ui

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/site/picture"
	"linemap/internal/unit"
)

// planEndings are those of the files that a floor plan can be read from.
var planEndings = []string{".png", ".jpg", ".jpeg", ".pdf"}

// underlayDialog asks for a floor plan.
func (w *Window) underlayDialog() {
	endings := slices.Clone(planEndings)
	for _, e := range planEndings { // as cameras and scanners write them
		endings = append(endings, strings.ToUpper(e))
	}
	w.chooseFile(endings, w.addUnderlay)
}

// addUnderlay lays a floor plan under the level drawn on. Reading it takes a
// moment, so it is done beside the window.
func (w *Window) addUnderlay(path string) {
	w.status.note("Reading " + filepath.Base(path) + "…")
	w.beside(func() (func(), error) {
		if !picture.IsPDF(path) {
			p, err := picture.Read(path)
			return func() { w.layUnder(p) }, err
		}
		pages, err := picture.PDFPages(context.Background(), path)
		if err == nil && pages > 1 {
			return func() { w.choosePage(path, pages) }, nil
		}
		if err != nil {
			return nil, err
		}
		return w.readPage(path, 1)
	})
}

// pageDPI is how many dots per inch a page of a PDF is read with.
const pageDPI = 150

func (w *Window) readPage(path string, page int) (func(), error) {
	p, err := picture.ReadPage(context.Background(), path, page, pageDPI)
	return func() { w.layUnder(p) }, err
}

// beside does something that takes long in a goroutine of its own and what it
// returns in the window's.
func (w *Window) beside(do func() (func(), error)) {
	go func() {
		then, err := do()
		fyne.Do(w.guard(func() {
			w.status.done()
			if err != nil {
				w.report("The floor plan cannot be used", err.Error(), "Nothing was changed. Save the plan as PNG, JPEG or PDF and try again.")
				return
			}
			then()
		}))
	}()
}

// choosePage asks for a page of a PDF.
func (w *Window) choosePage(path string, pages int) {
	entry := w.newEntry("1")
	entry.Validator = func(s string) error {
		if n, err := strconv.Atoi(s); err != nil || n < 1 || n > pages {
			return fmt.Errorf("%q is no page from 1 to %d", s, pages)
		}
		return nil
	}
	d := dialog.NewForm(filepath.Base(path), "Take it", "Go back",
		[]*widget.FormItem{{Text: "Page", Widget: entry, HintText: fmt.Sprintf("1 to %d", pages)}},
		func(ok bool) {
			n, err := strconv.Atoi(entry.Text)
			if ok && err == nil {
				w.beside(func() (func(), error) { return w.readPage(path, n) })
			}
		}, w.win)
	d.Resize(fyne.NewSize(380, 190))
	d.Show()
	w.win.Canvas().Focus(entry)
}

// layUnder makes a picture an underlay in the middle of the view. A large one is
// kept beside the site's file.
func (w *Window) layUnder(p *picture.Picture) {
	u, err := p.Embed()
	if err != nil {
		if u, err = p.Beside(w.desk.Path()); err != nil {
			w.report("The floor plan cannot be used", err.Error(), "It is too large to go into the site file. Save the site, then try again: the plan is kept beside it.")
			return
		}
	}
	v := w.board.View()
	const share, dim = 0.8, 0.45
	u.Level, u.At, u.Dim = w.desk.Level(), v.Centre, dim
	u.Scale = picture.Fit(p.Size, unit.Metres(share*v.W/v.Scale), unit.Metres(share*v.H/v.Scale))
	if w.do(edit.PlaceUnderlay(w.desk.Site(), u)) {
		w.scaleUnderlay()
	}
}

// chosenUnderlay is the underlay that is selected, else the only one of the
// level.
func (w *Window) chosenUnderlay() (*site.Underlay, bool) {
	s := w.desk.Site()
	var only *site.Underlay
	n := 0
	for i := range s.Underlays {
		u := &s.Underlays[i]
		if w.desk.Selection().Has(edit.UnderlayRef(u.ID)) {
			return u, true
		}
		if u.Level == w.desk.Level() {
			only, n = u, n+1
		}
	}
	return only, n == 1
}

func (w *Window) oneUnderlay() bool {
	_, ok := w.chosenUnderlay()
	return ok
}

// embedUnderlay takes the bytes of a floor plan into the site's file.
func (w *Window) embedUnderlay() {
	u, ok := w.chosenUnderlay()
	if !ok || len(u.Data) > 0 {
		w.status.note("The floor plan is in the site file already.")
		return
	}
	path := filepath.Join(filepath.Dir(w.desk.Path()), filepath.FromSlash(u.File))
	id := u.ID
	w.beside(func() (func(), error) {
		p, err := picture.Read(path)
		if err != nil {
			return nil, err
		}
		in, err := p.Embed()
		return func() {
			w.do(edit.SetUnderlay(w.desk.Site(), id, func(u *site.Underlay) { u.Data, u.File = in.Data, "" }))
		}, err
	})
}

// bringPictures copies the floor plans that lie beside the site's file to where
// it is going to be saved.
func (w *Window) bringPictures(to string) error {
	from := filepath.Dir(w.desk.Path())
	if w.desk.Path() == "" || from == filepath.Dir(to) {
		return nil
	}
	var left []error
	for i := range w.desk.Site().Underlays {
		u := w.desk.Site().Underlays[i]
		if u.File == "" {
			continue
		}
		p, err := picture.Read(filepath.Join(from, filepath.FromSlash(u.File)))
		if err == nil {
			p.Path = "" // it is to be copied, not named where it lies
			var there site.Underlay
			if there, err = p.Beside(to); err == nil && there.File != u.File {
				w.do(edit.SetUnderlay(w.desk.Site(), u.ID, func(v *site.Underlay) { v.File = there.File }))
			}
		}
		left = append(left, err)
	}
	return errors.Join(left...)
}
