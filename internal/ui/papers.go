package ui

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"fyne.io/fyne/v2"

	"linemap/internal/export"
	"linemap/internal/route"
	"linemap/internal/site"
)

// fresh calls then with a plan of the sketch as it stands, or says why there is
// none.
func (w *Window) fresh(then func(s *site.Site, p *route.Plan)) {
	p := w.desk.Planning()
	switch {
	case p.Plan == nil || p.Stale && p.Err != nil:
		w.report("There is no plan to put on paper", planWords(w), "See the punch list for what is lacking.")
	case p.Stale || p.Running:
		w.status.note("The plan is still in the making; try again in a moment, or stop it.")
	default:
		then(p.Site, p.Plan)
	}
}

// home is the folder of the site's file, else the user's own.
func (w *Window) home() string {
	if p := w.desk.Path(); p != "" {
		if abs, err := filepath.Abs(p); err == nil {
			return filepath.Dir(abs)
		}
	}
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return "."
}

// paperOptions say where the papers find the floor plans. Papers of a job without
// a title are called as its file is.
func (w *Window) paperOptions() export.Options {
	folder, _ := w.pictureFolder.Load().(string)
	opt := export.Options{Folder: folder}
	if w.desk.Site().Job.Title == "" && w.desk.Path() != "" {
		opt.Name = w.desk.Name()
	}
	return opt
}

// paper is one paper that can be printed.
type paper struct {
	name string
	make func(*site.Site, *site.Tables, *route.Plan, export.Options) ([]byte, error)
}

var (
	runSheetPaper = paper{"run sheet", export.RunSheet}
	mapPaper      = paper{"map", func(s *site.Site, _ *site.Tables, p *route.Plan, opt export.Options) ([]byte, error) {
		return export.Map(s, p, opt)
	}}
)

// print hands a paper to the system: to its viewer, from which it is looked at
// and printed.
func (w *Window) print(what paper) {
	w.fresh(func(s *site.Site, p *route.Plan) {
		opt, name := w.paperOptions(), fileName(what.name+" "+w.desk.Name())+".pdf"
		go func() {
			path, err := w.printable(what, name, s, p, opt)
			if err == nil {
				err = handOver(path)
			}
			fyne.Do(w.guard(func() {
				if err != nil {
					w.report("The "+what.name+" cannot be printed", export.Capital(err.Error()), "Export the papers instead, and print the PDF with a program of your own.")
					return
				}
				w.status.note("The " + what.name + " is open in the system's viewer; print it from there.")
			}))
		}()
	})
}

// printable writes a paper under a name where the system's viewer can read it.
func (w *Window) printable(what paper, name string, s *site.Site, p *route.Plan, opt export.Options) (string, error) {
	data, err := what.make(s, w.desk.Tables(), p, opt)
	if err != nil {
		return "", err
	}
	dir, err := os.MkdirTemp("", "linemap-print-")
	if err != nil {
		return "", err
	}
	path := filepath.Join(dir, name)
	return path, os.WriteFile(path, data, 0o600)
}

// handOver opens a file in the system's viewer, or sends it to the printer where
// there is none.
func handOver(path string) error {
	var ways [][]string
	switch runtime.GOOS {
	case "darwin":
		ways = [][]string{{"open", path}}
	case "windows":
		ways = [][]string{{"rundll32", "url.dll,FileProtocolHandler", path}}
	default:
		ways = [][]string{{"xdg-open", path}, {"lp", path}}
	}
	var missing []string
	for _, way := range ways {
		program, err := exec.LookPath(way[0])
		if err != nil {
			missing = append(missing, way[0])
			continue
		}
		cmd := exec.Command(program, way[1:]...)
		if err := cmd.Start(); err != nil {
			return err
		}
		go func() { _ = cmd.Wait() }()
		return nil
	}
	return fmt.Errorf("the system has neither %s; the paper is at %s", strings.Join(missing, " nor "), path)
}
