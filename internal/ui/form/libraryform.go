package form

import (
	"errors"
	"fmt"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
)

// LibraryForm opens the library of rigs, whose own are kept in a folder.
func LibraryForm(d *desk.Desk, w fyne.Window, folder string) {
	s := newShelves(d, w, Library{Folder: folder})
	open(d, w, "Rig library", fyne.NewSize(560, 520), s.page, s)
}

// shelves is the library on the screen.
type shelves struct {
	desk    *desk.Desk
	window  fyne.Window
	library Library
	page    *page
	list    *fyne.Container
	name    *widget.Entry
	rows    []LibraryRig
	offered string // the name that was put into the field
}

func newShelves(d *desk.Desk, w fyne.Window, l Library) *shelves {
	s := &shelves{desk: d, window: w, library: l, list: container.New(&stack{gap: 8}), name: widget.NewEntry()}
	s.offered = d.Site().Rig.Name
	s.name.SetText(s.offered)
	s.name.OnSubmitted = func(string) { s.save() }
	save := iconButton("Save", theme.IconNameDocumentSave, s.save)
	head := widget.NewLabel("Keep this site's rig under a name:")
	head.Wrapping = fyne.TextWrapWord
	bring := iconButton("Bring in a rig file…", theme.IconNameFolderOpen, s.bring)
	s.page = newPage(fyne.NewSize(300, 200), s.list, widget.NewSeparator(), head,
		container.NewBorder(nil, nil, nil, save, s.name), container.NewHBox(bring))
	s.read()
	return s
}

// refresh marks the rig that the site has now, and offers its name to keep it
// under where none was typed.
func (s *shelves) refresh() {
	if now := s.desk.Site().Rig.Name; s.name.Text == s.offered && s.offered != now {
		s.offered = now
		s.name.SetText(now)
	}
	s.show()
}

func (s *shelves) settle() bool { return true }

// read reads the library anew.
func (s *shelves) read() {
	rows, err := s.library.List()
	if err != nil {
		sayProblem(s.window, "The rig library cannot be read", err)
	}
	s.rows = rows
	s.show()
}

// show lists the rigs.
func (s *shelves) show() {
	s.list.RemoveAll()
	for _, r := range s.rows {
		s.list.Add(s.row(r))
	}
	s.page.again()
}

// row shows one rig with what can be done with it.
func (s *shelves) row(r LibraryRig) fyne.CanvasObject {
	name := widget.NewLabel(r.Name)
	name.Wrapping, name.TextStyle.Bold = fyne.TextWrapWord, true
	about := widget.NewLabel("Comes with the program")
	about.Wrapping, about.SizeName = fyne.TextWrapWord, theme.SizeNameCaptionText
	buttons := container.NewHBox()
	if r.Rig != nil {
		buttons.Add(iconButton("Use", theme.IconNameConfirm, func() { s.use(r) }))
		buttons.Add(iconButton("Write to a file…", theme.IconNameDownload, func() { s.write(r) }))
	}
	if r.File != "" {
		about.SetText("Yours")
		buttons.Add(iconButton("Delete", theme.IconNameDelete, func() { s.ask(r) }))
	}
	if r.Rig != nil && reflect.DeepEqual(*r.Rig, s.desk.Site().Rig) {
		about.SetText(about.Text + "; this site has it now")
	}
	if r.Err != nil {
		about.Importance = widget.DangerImportance
		about.SetText("Cannot be used: " + r.Err.Error())
	}
	return container.New(&stack{}, name, about, buttons)
}

// use puts a rig of the library in the place of the site's.
func (s *shelves) use(r LibraryRig) {
	e, err := edit.SetRig(s.desk.Site(), *r.Rig)
	if err != nil {
		sayProblem(s.window, "The rig cannot be used", err)
		return
	}
	s.desk.Do(e)
}

func (s *shelves) save() {
	for _, r := range s.rows {
		if r.File != "" && r.Rig != nil && r.Name == s.name.Text {
			dialog.ShowConfirm("Take its place?", fmt.Sprintf("The library has a rig %q. Put this site's rig in its place?", r.Name),
				func(yes bool) {
					if yes {
						s.keep()
					}
				}, s.window)
			return
		}
	}
	s.keep()
}

func (s *shelves) keep() {
	if err := s.library.Save(s.name.Text, s.desk.Site().Rig); err != nil {
		sayProblem(s.window, "The rig was not kept", err)
		return
	}
	s.read()
}

func (s *shelves) ask(r LibraryRig) {
	dialog.ShowConfirm("Delete the rig?", fmt.Sprintf("%s is taken out of the library for good. Sites that use it keep their own copy.", r.Name),
		func(yes bool) {
			if yes {
				s.remove(r)
			}
		}, s.window)
}

func (s *shelves) remove(r LibraryRig) {
	if err := s.library.Delete(r); err != nil {
		sayProblem(s.window, "The rig was not deleted", err)
	}
	s.read()
}

func (s *shelves) bring() {
	ask := dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
		if f != nil {
			err = errors.Join(err, f.Close())
			s.bringIn(f.URI().Path(), err)
		} else if err != nil {
			s.bringIn("", err)
		}
	}, s.window)
	ask.SetFilter(storage.NewExtensionFileFilter([]string{".json"}))
	ask.Show()
}

func (s *shelves) bringIn(path string, err error) {
	if err == nil {
		_, err = s.library.Import(path)
	}
	if err != nil {
		sayProblem(s.window, "The rig file cannot be used", err)
		return
	}
	s.read()
}

func (s *shelves) write(r LibraryRig) {
	ask := dialog.NewFileSave(func(f fyne.URIWriteCloser, err error) {
		if f == nil && err == nil {
			return // called off
		}
		path := ""
		if f != nil {
			path = f.URI().Path()
			err = errors.Join(err, f.Close())
		}
		s.writeTo(path, r, err)
	}, s.window)
	ask.SetFileName(freeName(r.Name, nil))
	ask.Show()
}

func (s *shelves) writeTo(path string, r LibraryRig, err error) {
	if err == nil {
		err = s.library.Export(path, *r.Rig)
	}
	if err != nil {
		sayProblem(s.window, "The rig was not written", err)
	}
}
