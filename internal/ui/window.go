package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/site/picture"
	"linemap/internal/ui/board"
	"linemap/internal/ui/desk"
	"linemap/internal/ui/form"
	"linemap/internal/ui/punch"
	"linemap/internal/ui/strip"
	"linemap/internal/unit"
)

// Options say how the window is opened.
type Options struct {
	// Site is the file to open, "" for the welcome.
	Site string
	// Folder is where the program keeps what is the user's own: rigs and copies
	// against a crash. Empty is the system's folder for it.
	Folder string
}

// Window is the program's window.
type Window struct {
	app    fyne.App
	win    fyne.Window
	folder string
	prefs  prefs

	desk   *desk.Desk
	rescue *desk.Rescue

	board  *board.Board
	strip  *strip.Strip
	card   *form.Card
	punch  *punch.List
	kit    *kit
	next   *nextPipe
	status *status
	day    day

	split, column, floor *container.Split
	over                 *fyne.Container // the board, and what lies over it
	welcome              fyne.CanvasObject
	guide                *guide
	menus                map[string]*fyne.MenuItem
	recent               []string // looked up on the disk when it may have changed, not with every edit

	pictures      picture.Cache
	pictureFolder atomic.Value      // the folder of the site's file, for the painter
	picturesTold  sync.Map          // what was told of pictures that cannot be had
	question      fyne.CanvasObject // whether to save, once it was asked
	closed        bool
}

// Run opens the window and returns when it is closed. An error means that it
// could not be opened.
func Run(app fyne.App, opt Options) (err error) {
	w, err := New(app, opt)
	if err != nil {
		return err
	}
	// What gets past the guards ends the window, but not the work.
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("a fault in the program, please report it: %v", fault)
			if kept := w.rescue.Now(); kept == nil {
				err = fmt.Errorf("%w\nThe sketch was kept; linemap offers it when it starts again", err)
			}
		}
	}()
	w.win.Show()
	w.begin(opt.Site)
	app.Run()
	return nil
}

// New makes the window without showing it.
func New(app fyne.App, opt Options) (*Window, error) {
	tables, err := site.LoadTables()
	if err != nil {
		return nil, err
	}
	w := &Window{app: app, folder: opt.Folder, prefs: prefs{app.Preferences()}}
	if w.folder == "" {
		base, err := os.UserConfigDir()
		if err != nil {
			return nil, fmt.Errorf("there is no folder for the user's own settings: %w", err)
		}
		w.folder = filepath.Join(base, "linemap")
	}
	w.prefs.applyTheme(app)
	w.recent = w.prefs.recent()
	w.win = app.NewWindow("linemap")
	w.desk, err = desk.New(tables, w.prefs.units(), func(f func()) { fyne.Do(w.guard(f)) })
	if err != nil {
		return nil, err
	}
	w.rescue, err = desk.NewRescue(filepath.Join(w.folder, "rescue"), w.desk, w.tell)
	if err != nil {
		return nil, err
	}
	w.build()
	w.desk.Watch(w.changed)
	w.changed(desk.Opened)
	return w, nil
}

// build makes the parts and lays them out.
func (w *Window) build() {
	w.board = board.New(w.desk, board.Acts{
		Tell: w.tell, Say: func(text string) { w.status.note(text) }, Menu: w.selectionMenu, Key: w.typedKey, Rune: w.typedRune,
		Moved: func() { w.status.follow() }, Pictures: w.picture,
		Guard: func(do func()) { w.guard(do)() },
	})
	w.status = newStatus(w)
	w.kit = newKit(w)
	w.next = newNextPipe(w)
	w.card = form.New(w.desk, w.tell)
	w.punch = punch.New(w.desk, func(r edit.Ref) { w.board.ZoomTo(r) })
	w.strip = strip.New(strip.Acts{
		Light: w.board.Light, At: w.playAt, Menu: w.runMenu, Playing: w.day.follows,
		Key: w.typedKey, Rune: w.typedRune, Guard: func(do func()) { w.guard(do)() },
	})

	w.column = container.NewVSplit(w.card, w.punch)
	w.column.SetOffset(0.55)
	w.over = container.NewStack(w.board)
	w.split = container.NewHSplit(w.over, w.column)
	w.split.SetOffset(w.prefs.float(prefSplit, 0.76))
	w.floor = container.NewVSplit(w.split, container.NewBorder(nil, nil, w.day.controls(w), nil, w.strip))
	w.floor.SetOffset(w.prefs.float(prefFloor, 0.8))
	all := container.NewBorder(w.next.bar, w.status.bar, w.kit.column, nil, w.floor)
	w.win.SetContent(all)
	w.win.SetMainMenu(w.mainMenu())
	w.win.SetPadded(false)
	w.win.SetMaster()
	w.win.Resize(w.prefs.size())
	w.win.SetCloseIntercept(w.guard(w.close))
	w.win.SetOnDropped(func(_ fyne.Position, files []fyne.URI) { w.guard(func() { w.dropped(files) })() })
	w.win.Canvas().SetOnTypedKey(w.typedKey)
	w.win.Canvas().SetOnTypedRune(w.typedRune)
}

// begin opens what the program was started with, or offers what a crash left.
func (w *Window) begin(path string) {
	w.board.Focus()
	if path != "" {
		w.open(path)
	} else {
		w.showWelcome()
	}
	w.offerCopies()
}

// changed follows the desk.
func (w *Window) changed(c desk.Change) {
	if c&desk.File != 0 {
		w.win.SetTitle(w.title())
		w.pictureFolder.Store(filepath.Dir(w.desk.Path()))
	}
	if c&(desk.Document|desk.File|desk.Selected|desk.Planned) != 0 {
		w.refreshMenus()
	}
	if c&(desk.Planned|desk.Document) != 0 {
		w.day.follow(w)
	}
	if c&(desk.Style|desk.Level|desk.Document) != 0 {
		w.next.follow()
	}
	if c&desk.Selected != 0 {
		w.strip.Lit(w.runOfSelection())
	}
	w.guide.follow()
	w.status.follow()
}

// title is what stands on the window's frame: a dot before what is not saved.
func (w *Window) title() string {
	name := w.desk.Name()
	if w.desk.Changed() {
		name = "• " + name
	}
	return name + " - linemap"
}

// units are those that people read.
func (w *Window) units() unit.System { return w.desk.Units() }

// pipeRef refers to a pipe of the plan where it is still there.
func (w *Window) pipeRef(id network.PipeID) []edit.Ref {
	if _, ok := w.desk.Graph().PipeIndex(id); ok {
		return []edit.Ref{edit.PipeRef(id)}
	}
	return nil
}

// label is a line of text that is cut where there is no room.
func label(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.Truncation = fyne.TextTruncateEllipsis
	return l
}
