package ui

import (
	"image"
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/ui/hand"
	"linemap/internal/ui/look"
	"linemap/internal/unit"
)

// stackTool returns the tool that places stacks to another level. Where there
// are several it asks which and puts the tool in hand itself.
func (w *Window) stackTool() hand.Tool {
	others := slices.DeleteFunc(slices.Clone(w.desk.Site().Network.Levels), func(l network.Level) bool { return l.Name == w.desk.Level() })
	switch len(others) {
	case 0:
		w.report("A stack joins two levels", "This site has fewer than two.", "Add a level first: menu Site, Levels.")
		return nil
	case 1:
		return hand.NewStack(others[0].Name)
	}
	var items []*fyne.MenuItem
	for _, l := range others {
		items = append(items, fyne.NewMenuItem("Stack to "+l.Name, w.guard(func() {
			w.board.SetTool(hand.NewStack(l.Name))
			w.board.Focus()
		})))
	}
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), w.win.Canvas(), fyne.NewPos(140, 120))
	return nil
}

// scaleUnderlay puts the tool in hand that scales a floor plan.
func (w *Window) scaleUnderlay() {
	if u, ok := w.chosenUnderlay(); ok {
		w.board.SetTool(hand.NewScale(u.ID))
		w.board.Focus()
	}
}

// picture returns the picture of a floor plan and the length of one dot of it.
// It is called from the painter's goroutine.
func (w *Window) picture(u *site.Underlay) (image.Image, unit.Length) {
	folder, _ := w.pictureFolder.Load().(string)
	shown, err := w.pictures.Load(u, folder)
	if err != nil {
		if _, told := w.picturesTold.LoadOrStore(string(u.ID)+err.Error(), true); !told {
			fyne.Do(w.guard(func() { w.tell(err) }))
		}
		return nil, 0
	}
	return shown.Image, shown.Dot(u)
}

// rigFolder is where the user's own rigs are kept.
func (w *Window) rigFolder() string { return filepath.Join(w.folder, "rigs") }

// setTheme chooses the light.
func (w *Window) setTheme(c look.Choice) {
	w.prefs.SetString(prefTheme, string(c))
	w.prefs.applyTheme(w.app)
	w.board.Refresh()
}

func (w *Window) isTheme(c look.Choice) func() bool {
	return func() bool { return look.Choice(w.prefs.String(prefTheme)) == c }
}

// textSizeItems are the entries of the menu of text sizes.
func (w *Window) textSizeItems() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	now := float32(w.prefs.float(prefScale, 1))
	for _, s := range look.Scales {
		item := fyne.NewMenuItem(look.ScaleName(s), w.guard(func() {
			w.prefs.SetFloat(prefScale, float64(s))
			w.prefs.applyTheme(w.app)
		}))
		item.Checked = s == now
		items = append(items, item)
	}
	return items
}
