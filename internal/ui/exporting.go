package ui

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/route"
	"linemap/internal/site"
)

// exportDialog asks for a folder and for the papers, and writes them there.
func (w *Window) exportDialog() {
	w.fresh(func(s *site.Site, p *route.Plan) {
		entry := w.newEntry(filepath.Join(w.home(), fileName(w.desk.Name())+" papers"))
		browse := widget.NewButton("Other folder…", func() {
			d := dialog.NewFolderOpen(func(l fyne.ListableURI, err error) {
				if l != nil && err == nil {
					entry.SetText(l.Path())
				}
			}, w.win)
			w.showFileDialog(d)
		})
		choice := newPaperChoice(s, w.prefs.papers())
		body := container.NewVBox(
			widget.NewLabel("Folder for the papers:"), container.NewBorder(nil, nil, nil, browse, entry),
			widget.NewLabel("Papers to write:"), choice.body,
		)
		write := func() {
			w.prefs.SetString(prefPapers, choice.keys())
			w.export(entry.Text, choice.papers(), s, p)
		}
		d := dialog.NewCustomConfirm("Export papers", "Write them", "Go back", body, func(ok bool) {
			if ok {
				w.guard(write)()
			}
		}, w.win)
		d.Resize(fyne.NewSize(600, 340))
		d.Show()
		entry.OnSubmitted = func(string) {
			d.Hide()
			w.guard(write)()
		}
		w.win.Canvas().Focus(entry)
	})
}

// papers are the papers that were written last, at first the usual ones.
func (p prefs) papers() []export.Paper {
	if chosen, err := export.ChoosePapers(p.String(prefPapers)); err == nil {
		return chosen
	}
	return export.UsualPapers()
}

// paperChoice is a box for each paper. One that the site cannot give is grey,
// and the reason stands below.
type paperChoice struct {
	all  []export.Paper
	box  []*widget.Check
	body fyne.CanvasObject
}

func newPaperChoice(s *site.Site, ticked []export.Paper) *paperChoice {
	c := &paperChoice{all: export.Papers()}
	grid := container.NewGridWithColumns(2)
	body := container.NewVBox(grid)
	for _, p := range c.all {
		title := export.Capital(p.Title)
		box := widget.NewCheck(title, nil)
		box.Checked = slices.ContainsFunc(ticked, func(o export.Paper) bool { return o.Key == p.Key })
		if err := p.Lacks(s); err != nil {
			box.Checked = false
			box.Disable()
			why := widget.NewLabel(title + ": " + err.Error() + ".")
			why.Wrapping = fyne.TextWrapWord
			body.Add(why)
		}
		c.box = append(c.box, box)
		grid.Add(box)
	}
	c.body = body
	return c
}

// papers are those whose box is ticked.
func (c *paperChoice) papers() (chosen []export.Paper) {
	for i, p := range c.all {
		if c.box[i].Checked {
			chosen = append(chosen, p)
		}
	}
	return chosen
}

// keys are the keys of those papers, to be remembered.
func (c *paperChoice) keys() string {
	var keys []string
	for _, p := range c.papers() {
		keys = append(keys, p.Key)
	}
	return strings.Join(keys, ",")
}

// export writes papers in the background.
func (w *Window) export(dir string, papers []export.Paper, s *site.Site, p *route.Plan) {
	switch {
	case strings.TrimSpace(dir) == "":
		w.report("The papers cannot be written", "No folder was named.", "Name a folder.")
		return
	case len(papers) == 0:
		w.report("The papers cannot be written", "No paper was chosen.", "Tick one at least.")
		return
	}
	w.status.note("Writing the papers…")
	opt := w.paperOptions()
	go func() {
		files, err := export.WritePapers(dir, papers, s, w.desk.Tables(), p, opt)
		fyne.Do(w.guard(func() {
			if err != nil {
				w.failed("The papers cannot be written", dir, err)
				return
			}
			w.status.note(fmt.Sprintf("%d papers written to %s", len(files), dir))
		}))
	}()
}
