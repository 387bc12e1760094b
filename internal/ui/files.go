package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/site"
	"linemap/internal/ui/desk"
	"linemap/internal/ui/form"
)

// unlessChanged goes on at once where nothing is lost by it, else asks first.
func (w *Window) unlessChanged(then func()) {
	if !w.desk.Changed() {
		then()
		return
	}
	if w.lies(w.question) { // one question at a time
		return
	}
	text := widget.NewLabel(fmt.Sprintf("%s has changes that are not saved.", w.desk.Name()))
	text.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons("Save the changes?", text, w.win)
	button := func(name string, how widget.Importance, do func()) *widget.Button {
		b := widget.NewButton(name, w.guard(func() {
			d.Hide()
			do()
		}))
		b.Importance = how
		return b
	}
	d.SetButtons([]fyne.CanvasObject{
		button("Go back", widget.MediumImportance, w.board.Focus),
		button("Lose the changes", widget.DangerImportance, then),
		button("Save", widget.HighImportance, func() { w.save(then) }),
	})
	d.Resize(fyne.NewSize(420, 170))
	d.Show()
	w.question = w.win.Canvas().Overlays().Top()
}

func (w *Window) newSite() {
	w.unlessChanged(func() {
		if err := w.desk.New(w.prefs.units()); err != nil {
			w.tell(err)
		}
		w.hideWelcome()
	})
}

func (w *Window) openDemo(name string) {
	w.unlessChanged(func() {
		if err := w.desk.OpenDemo(name); err != nil {
			w.tell(err)
			return
		}
		w.hideWelcome()
	})
}

// open opens a file, after asking for what would be lost.
func (w *Window) open(path string) {
	w.unlessChanged(func() {
		if err := w.desk.Open(path); err != nil {
			w.failed("The site cannot be opened", path, err)
			return
		}
		w.hideWelcome()
		w.remember()
	})
}

// failed tells what could not be done with a file.
func (w *Window) failed(what, path string, err error) {
	if load := (*site.LoadError)(nil); errors.As(err, &load) {
		w.unreadable(load, path, "")
		return
	}
	w.report(what, fmt.Sprintf("%s\n\n%v", path, err), "Nothing was changed. Check the folder and the name, or choose another.")
}

// remember puts the file of the site in front of the recent ones.
func (w *Window) remember() {
	path := w.desk.Path()
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	w.prefs.remember(path)
	w.recent = w.prefs.recent()
	w.refreshMenus()
}

func (w *Window) openDialog() { w.chooseFile([]string{site.Extension}, w.open) }

// chooseFile asks for a file with one of some endings.
func (w *Window) chooseFile(endings []string, then func(path string)) {
	d := dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
		if err != nil || f == nil {
			w.tell(err)
			return
		}
		path := f.URI().Path()
		_ = f.Close()
		w.guard(func() { then(path) })()
	}, w.win)
	d.SetFilter(storage.NewExtensionFileFilter(endings))
	w.showFileDialog(d)
}

// visitsDialog opens the form of the visits.
func (w *Window) visitsDialog() {
	form.VisitsForm(w.desk, w.win, func(then func(string)) { w.chooseFile([]string{".csv", ".txt"}, then) })
}

// fileDialog is what Fyne's file dialogs have in common.
type fileDialog interface {
	dialog.Dialog
	SetLocation(fyne.ListableURI)
}

// showFileDialog opens a file dialog in the folder of the site.
func (w *Window) showFileDialog(d fileDialog) {
	dir := filepath.Dir(w.desk.Path())
	if w.desk.Path() == "" {
		dir, _ = os.Getwd()
		if recent := w.prefs.recent(); len(recent) > 0 {
			dir = filepath.Dir(recent[0])
		}
	}
	if abs, err := filepath.Abs(dir); err == nil {
		if l, err := storage.ListerForURI(storage.NewFileURI(abs)); err == nil {
			d.SetLocation(l)
		}
	}
	size := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(820, size.Width-40), min(560, size.Height-60)))
	d.Show()
}

// save writes the site to its file, asking for one where it has none, and goes
// on with then when it is written.
func (w *Window) save(then func()) {
	if w.desk.Path() == "" {
		w.saveAs(then)
		return
	}
	w.wrote(w.desk.Path(), w.desk.Save(), then)
}

func (w *Window) wrote(path string, err error, then func()) {
	if err != nil {
		w.failed("The site cannot be saved", path, err)
		return
	}
	w.remember()
	w.status.note("Saved to " + w.desk.Path())
	if then != nil {
		then()
	}
}

func (w *Window) saveAs(then func()) {
	d := dialog.NewFileSave(func(f fyne.URIWriteCloser, err error) {
		if err != nil || f == nil {
			w.tell(err)
			return
		}
		path := f.URI().Path()
		_ = f.Close()
		w.guard(func() { w.saveTo(path, then) })()
	}, w.win)
	d.SetFileName(fileName(w.desk.Name()) + site.Extension)
	d.SetFilter(storage.NewExtensionFileFilter([]string{site.Extension}))
	w.showFileDialog(d)
	if name, ok := w.win.Canvas().Focused().(fyne.Shortcutable); ok {
		name.TypedShortcut(&fyne.ShortcutSelectAll{}) // what one types takes the place of the name offered
	}
}

// saveTo saves the site to a file that the dialog has named, and made. The dialog
// asks before a file is written over; where the name is made whole here, so is
// that.
func (w *Window) saveTo(path string, then func()) {
	if filepath.Ext(path) == site.Extension {
		w.putAt(path, then)
		return
	}
	if info, err := os.Stat(path); err == nil && info.Size() == 0 {
		_ = os.Remove(path) // the empty file of the dialog
	}
	path += site.Extension
	if _, err := os.Stat(path); err != nil {
		w.putAt(path, then)
		return
	}
	d := dialog.NewConfirm("Write over the file?", path+" is there already.", func(ok bool) {
		if ok {
			w.guard(func() { w.putAt(path, then) })()
		}
	}, w.win)
	d.SetConfirmText("Write over it")
	d.SetDismissText("Go back")
	d.Show()
}

// putAt saves the site to a file, and the floor plans beside it.
func (w *Window) putAt(path string, then func()) {
	if err := w.bringPictures(path); err != nil {
		w.report("A floor plan stays behind", err.Error(), "The site is saved all the same. Lay the plan under the sketch again, or take it into the site file.")
	}
	w.wrote(path, w.desk.SaveAs(path), then)
}

// fileName makes a file's name of a title.
func fileName(title string) string {
	name := strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, strings.TrimSpace(title))
	if name == "" || strings.Trim(name, ".") == "" {
		return "site"
	}
	return name
}

// recentItems are the entries of the menu of recent files.
func (w *Window) recentItems() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	for _, path := range w.recent {
		items = append(items, fyne.NewMenuItem(filepath.Base(path)+"   "+filepath.Dir(path), w.guard(func() { w.open(path) })))
	}
	return items
}

// demoItems are the entries of the menu of demo sites.
func (w *Window) demoItems() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	names, _ := site.Demos() // they travel inside the program
	for _, name := range names {
		items = append(items, fyne.NewMenuItem(export.Capital(name), w.guard(func() { w.openDemo(name) })))
	}
	return items
}

// dropped takes files that were dropped on the window: a site is opened, a
// picture becomes an underlay.
func (w *Window) dropped(files []fyne.URI) {
	for _, f := range files {
		switch ending := strings.ToLower(f.Extension()); {
		case ending == site.Extension:
			w.open(f.Path())
			return
		case slices.Contains(planEndings, ending):
			w.addUnderlay(f.Path())
		default:
			w.report("This file is of no use here", f.Path(), "Drop a site ("+site.Extension+"), or a floor plan as PNG, JPEG or PDF.")
			return
		}
	}
}

// close closes the window, after asking for what would be lost.
func (w *Window) close() {
	w.unlessChanged(func() {
		size := w.win.Canvas().Size()
		w.prefs.SetFloat(prefWidth, float64(size.Width))
		w.prefs.SetFloat(prefHeight, float64(size.Height))
		w.prefs.SetFloat(prefSplit, w.split.Offset)
		w.prefs.SetFloat(prefFloor, w.floor.Offset)
		w.closed = true
		w.rescue.Close()
		w.win.Close()
	})
}

// offerCopies offers what a crash left behind.
func (w *Window) offerCopies() {
	copies := desk.Left(filepath.Join(w.folder, "rescue"))
	if len(copies) == 0 {
		return
	}
	rows := container.NewVBox()
	d := dialog.NewCustom("Sketches that were not saved", "Later", container.NewVScroll(rows), w.win)
	for _, c := range copies {
		of := c.Of
		if of == "" {
			of = "never saved"
		}
		text := widget.NewLabel(fmt.Sprintf("%s, %s\n%s", c.Title, c.When.Local().Format("Monday 15:04"), of))
		text.Wrapping = fyne.TextWrapBreak
		take := widget.NewButton("Bring it back", w.guard(func() {
			d.Hide()
			w.unlessChanged(func() { w.recover(c) })
		}))
		take.Importance = widget.HighImportance
		var row *fyne.Container
		away := widget.NewButton("Throw it away", w.guard(func() {
			c.Drop()
			if rows.Remove(row); len(rows.Objects) == 0 {
				d.Hide()
			}
		}))
		row = container.NewBorder(nil, widget.NewSeparator(), nil, container.NewHBox(take, away), text)
		rows.Add(row)
	}
	d.Resize(fyne.NewSize(620, 280))
	d.Show()
}

// recover lays a copy on the desk.
func (w *Window) recover(c desk.Copy) {
	if err := w.desk.Recover(c); err != nil {
		w.failed("The copy cannot be read", c.Title, err)
		return
	}
	c.Drop()
	if err := w.rescue.Now(); err != nil {
		w.tell(err)
	}
	w.hideWelcome()
}
