package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/ui/hand"
)

// mainMenu makes the menus from the table of commands.
func (w *Window) mainMenu() *fyne.MainMenu {
	w.menus = map[string]*fyne.MenuItem{}
	menus := make([]*fyne.Menu, len(menuNames))
	for i, name := range menuNames {
		menus[i] = fyne.NewMenu(name)
	}
	for _, c := range w.commands() {
		m := menus[slices.Index(menuNames, c.menu)]
		if c.rule {
			m.Items = append(m.Items, fyne.NewMenuItemSeparator())
		}
		m.Items = append(m.Items, w.menuItem(c))
	}
	return fyne.NewMainMenu(menus...)
}

func (w *Window) menuItem(c command) *fyne.MenuItem {
	item := fyne.NewMenuItem(c.name, nil)
	item.Action = w.guard(func() {
		if w.forEntry(c.key) || w.dialogOpen() { // a dialog is answered first
			return
		}
		if c.enabled == nil || c.enabled() {
			c.do()
		}
		w.refreshMenus()
	})
	item.Shortcut = c.key
	item.IsQuit = c.name == "Quit"
	if c.more != nil {
		item.ChildMenu = fyne.NewMenu(c.name, c.more()...)
	}
	w.menus[c.name] = item
	return item
}

// forEntry hands a shortcut of editing to the field that has the keys, if one
// has: a menu takes it from the field.
func (w *Window) forEntry(key fyne.Shortcut) bool {
	switch key.(type) {
	case *fyne.ShortcutUndo, *fyne.ShortcutRedo, *fyne.ShortcutCut, *fyne.ShortcutCopy, *fyne.ShortcutPaste, *fyne.ShortcutSelectAll:
	default:
		return false
	}
	to, ok := w.win.Canvas().Focused().(fyne.Shortcutable)
	if !ok {
		return false
	}
	clip := w.app.Clipboard()
	switch key.(type) {
	case *fyne.ShortcutCut:
		key = &fyne.ShortcutCut{Clipboard: clip}
	case *fyne.ShortcutCopy:
		key = &fyne.ShortcutCopy{Clipboard: clip}
	case *fyne.ShortcutPaste:
		key = &fyne.ShortcutPaste{Clipboard: clip}
	}
	to.TypedShortcut(key)
	return true
}

// refreshMenus greys what cannot be done and names what undo would undo.
func (w *Window) refreshMenus() {
	if w.menus == nil {
		return
	}
	changed := false
	set := func(to *bool, v bool) {
		if *to != v {
			*to, changed = v, true
		}
	}
	for _, c := range w.commands() {
		item := w.menus[c.name]
		if item == nil {
			continue
		}
		if c.enabled != nil {
			set(&item.Disabled, !c.enabled())
		}
		if c.checked != nil {
			set(&item.Checked, c.checked())
		}
		if c.more != nil {
			item.ChildMenu.Items = c.more()
			set(&item.Disabled, len(item.ChildMenu.Items) == 0)
		}
	}
	for _, u := range []struct{ item, next string }{{"Undo", w.desk.NextUndo()}, {"Redo", w.desk.NextRedo()}} {
		text := strings.TrimSpace(u.item + " " + u.next)
		if item := w.menus[u.item]; item.Label != text {
			item.Label, changed = text, true
		}
	}
	if changed {
		w.win.MainMenu().Refresh()
	}
}

// dialogOpen reports whether a dialog or a menu lies over the window.
func (w *Window) dialogOpen() bool { return w.win.Canvas().Overlays().Top() != nil }

// lies reports whether a dialog that was opened still lies over the window.
func (w *Window) lies(over fyne.CanvasObject) bool {
	return over != nil && slices.Contains(w.win.Canvas().Overlays().List(), over)
}

// typedKey takes the keys for which neither board nor tool has a use. Escape
// closes a dialog, as its button that changes nothing does.
func (w *Window) typedKey(e *fyne.KeyEvent) {
	w.guard(func() {
		if top := w.win.Canvas().Overlays().Top(); top != nil {
			if e.Name == fyne.KeyEscape {
				top.Hide()
				w.board.Focus()
			}
			return
		}
		for _, c := range w.commands() {
			if c.plain == string(e.Name) && (c.enabled == nil || c.enabled()) {
				c.do()
				return
			}
		}
	})()
}

// typedRune puts the tool in hand that a letter stands for.
func (w *Window) typedRune(r rune) {
	w.guard(func() {
		if w.dialogOpen() {
			return
		}
		for _, e := range hand.Kit() {
			if strings.EqualFold(e.Key, string(r)) {
				w.kit.take(e)
				return
			}
		}
		w.typedKey(&fyne.KeyEvent{Name: fyne.KeyName(string(r))})
	})()
}

// selectionMenu opens the menu of what is selected on the board.
func (w *Window) selectionMenu(at fyne.Position) {
	var items []*fyne.MenuItem
	for _, c := range w.commands() {
		if c.menu != "Edit" || c.enabled != nil && !c.enabled() || c.more != nil && len(c.more()) == 0 {
			continue
		}
		if c.rule {
			items = append(items, fyne.NewMenuItemSeparator())
		}
		item := fyne.NewMenuItem(c.name, w.guard(func() { c.do() }))
		if c.more != nil {
			item.ChildMenu = fyne.NewMenu(c.name, c.more()...)
		}
		items = append(items, item)
	}
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), w.win.Canvas(), at)
}
