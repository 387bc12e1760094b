package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"linemap/internal/ui/form"
	"linemap/internal/ui/look"
)

// command is one thing that the window does. Menus, keys and help are made from
// the table of commands.
type command struct {
	menu string // the menu it stands in
	name string
	// key is the shortcut, nil for none; plain is a key that works on the board
	// without Ctrl.
	key   fyne.Shortcut
	plain string
	do    func()
	// enabled and checked, where set, say whether it can be done and whether it
	// is in force.
	enabled, checked func() bool
	// more makes the entries of a menu of its own.
	more func() []*fyne.MenuItem
	rule bool // a rule stands before it
}

const (
	ctrl      = fyne.KeyModifierShortcutDefault
	ctrlShift = fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift
)

func keys(key fyne.KeyName, mods fyne.KeyModifier) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: mods}
}

// The menus in their order.
var menuNames = []string{"File", "Edit", "See", "Site", "Plan", "Help"}

// commands is the table of all commands.
func (w *Window) commands() []command {
	d, b := w.desk, w.board
	some := func() bool { return d.Selection().Len() > 0 }
	planned := func() bool { return d.Planning().Plan != nil && len(d.Planning().Site.Network.Pipes) > 0 }
	runs := func() bool { return d.Planning().Plan != nil && len(d.Planning().Plan.Keys()) > 0 }
	return []command{
		{menu: "File", name: "New", key: keys(fyne.KeyN, ctrl), do: w.newSite},
		{menu: "File", name: "New from a demo", more: w.demoItems},
		{menu: "File", name: "Open…", key: keys(fyne.KeyO, ctrl), do: w.openDialog},
		{menu: "File", name: "Open recent", more: w.recentItems},
		{menu: "File", name: "Save", key: keys(fyne.KeyS, ctrl), do: func() { w.save(nil) }, rule: true},
		{menu: "File", name: "Save as…", key: keys(fyne.KeyS, ctrlShift), do: func() { w.saveAs(nil) }},
		{menu: "File", name: "Export papers…", key: keys(fyne.KeyE, ctrl), do: w.exportDialog, enabled: planned, rule: true},
		{menu: "File", name: "Print run sheet…", key: keys(fyne.KeyP, ctrl), do: func() { w.print(runSheetPaper) }, enabled: planned},
		{menu: "File", name: "Print map…", key: keys(fyne.KeyP, ctrlShift), do: func() { w.print(mapPaper) }, enabled: planned},
		{menu: "File", name: "Quit", key: keys(fyne.KeyQ, ctrl), do: w.close, rule: true},

		{menu: "Edit", name: "Undo", key: &fyne.ShortcutUndo{}, do: w.undo, enabled: func() bool { return d.NextUndo() != "" }},
		{menu: "Edit", name: "Redo", key: &fyne.ShortcutRedo{}, do: w.redo, enabled: func() bool { return d.NextRedo() != "" }},
		{menu: "Edit", name: "Cut", key: &fyne.ShortcutCut{}, do: w.cut, enabled: some, rule: true},
		{menu: "Edit", name: "Copy", key: &fyne.ShortcutCopy{}, do: w.copy, enabled: some},
		{menu: "Edit", name: "Paste", key: &fyne.ShortcutPaste{}, do: w.paste},
		{menu: "Edit", name: "Duplicate", key: keys(fyne.KeyD, ctrl), do: w.duplicate, enabled: some},
		{menu: "Edit", name: "Delete", plain: "Delete", do: w.delete, enabled: some},
		{menu: "Edit", name: "Select all", key: &fyne.ShortcutSelectAll{}, do: w.selectAll, rule: true},
		{menu: "Edit", name: "Select same kind", key: keys(fyne.KeyK, ctrl), do: w.selectSame, enabled: some},
		{menu: "Edit", name: "Select upstream", key: keys(fyne.KeyUp, ctrl), do: func() { w.selectBranch(true) }, enabled: some},
		{menu: "Edit", name: "Select downstream", key: keys(fyne.KeyDown, ctrl), do: func() { w.selectBranch(false) }, enabled: some},
		{menu: "Edit", name: "Turn left 1/4", key: keys(fyne.KeyLeft, ctrl), do: func() { w.turn(90) }, enabled: some, rule: true},
		{menu: "Edit", name: "Turn right 1/4", key: keys(fyne.KeyRight, ctrl), do: func() { w.turn(-90) }, enabled: some},
		{menu: "Edit", name: "Turn by…", do: w.turnDialog, enabled: some},
		{menu: "Edit", name: "Mirror left to right", key: keys(fyne.KeyM, ctrl), do: func() { w.mirror(false) }, enabled: some},
		{menu: "Edit", name: "Mirror top to bottom", key: keys(fyne.KeyM, ctrlShift), do: func() { w.mirror(true) }, enabled: some},
		{menu: "Edit", name: "Reverse flow", key: keys(fyne.KeyR, ctrl), do: w.reverse, enabled: some, rule: true},
		{menu: "Edit", name: "Split pipe in the middle", key: keys(fyne.KeyT, ctrl), do: w.splitPipe, enabled: some},
		{menu: "Edit", name: "Join two ends", key: keys(fyne.KeyJ, ctrl), do: w.join, enabled: func() bool { return d.Selection().Len() == 2 }},
		{menu: "Edit", name: "Move to level", more: w.moveToLevelItems},

		{menu: "See", name: "Whole level", key: keys(fyne.Key0, ctrl), plain: "Home", do: b.Fit},
		{menu: "See", name: "What is selected", key: keys(fyne.KeyF, ctrl), do: w.zoomToSelection, enabled: some},
		{menu: "See", name: "Nearer", key: keys(fyne.KeyEqual, ctrl), plain: "+", do: func() { b.ZoomBy(1.5) }},
		{menu: "See", name: "Farther", key: keys(fyne.KeyMinus, ctrl), plain: "-", do: func() { b.ZoomBy(1 / 1.5) }},
		{menu: "See", name: "Level above", key: keys(fyne.KeyPageUp, ctrl), do: func() { w.stepLevel(1) }, rule: true},
		{menu: "See", name: "Level below", key: keys(fyne.KeyPageDown, ctrl), do: func() { w.stepLevel(-1) }},
		{menu: "See", name: "Other levels in the background", do: func() { b.ShowGhosts(!b.Ghosts()) }, checked: b.Ghosts},
		{menu: "See", name: "Runs and hose lays", key: keys(fyne.KeyL, ctrl), do: func() { b.ShowPlan(!b.PlanShown()) }, checked: b.PlanShown},
		{menu: "See", name: "Grid", key: keys(fyne.KeyG, ctrl), do: w.toggleGrid, checked: func() bool { return d.Grid().Shown }, rule: true},
		{menu: "See", name: "Snap to grid, joints and angles", key: keys(fyne.KeyG, ctrlShift), do: w.toggleSnap, checked: func() bool { return d.Grid().Snap }},
		{menu: "See", name: "Daylight", do: func() { w.setTheme(look.ByDay) }, checked: w.isTheme(look.ByDay), rule: true},
		{menu: "See", name: "Night", do: func() { w.setTheme(look.ByNight) }, checked: w.isTheme(look.ByNight)},
		{menu: "See", name: "As the system", do: func() { w.setTheme(look.BySystem) }, checked: w.isTheme(look.BySystem)},
		{menu: "See", name: "Text size", more: w.textSizeItems},

		{menu: "Site", name: "Job and customer…", do: func() { form.JobForm(d, w.win) }},
		{menu: "Site", name: "Rig, hoses and nozzles…", do: func() { form.RigForm(d, w.win) }},
		{menu: "Site", name: "Rig library…", do: func() { form.LibraryForm(d, w.win, w.rigFolder()) }},
		{menu: "Site", name: "Prices…", do: func() { form.PricesForm(d, w.win) }},
		{menu: "Site", name: "Results of a visit…", do: w.visitsDialog, enabled: planned},
		{menu: "Site", name: "Levels…", do: func() { form.LevelsForm(d, w.win) }},
		{menu: "Site", name: "Units, paper and code…", do: func() { form.SettingsForm(d, w.win) }},
		{menu: "Site", name: "Place on Earth…", do: func() { form.EarthForm(d, w.win) }},
		{menu: "Site", name: "Floor plan under the sketch…", key: keys(fyne.KeyU, ctrl), do: w.underlayDialog, rule: true},
		{menu: "Site", name: "Scale the floor plan", do: w.scaleUnderlay, enabled: w.oneUnderlay},
		{menu: "Site", name: "Keep the floor plan in the site file", do: w.embedUnderlay, enabled: w.oneUnderlay},

		{menu: "Plan", name: "Plan again", plain: "F5", do: d.Replan},
		{menu: "Plan", name: "Stop, and take the best so far", key: keys(fyne.KeyPeriod, ctrl), do: d.StopPlanning, enabled: func() bool { return d.Planning().Running }},
		{menu: "Plan", name: "Play the day", key: keys(fyne.KeySpace, ctrl), do: w.day.toggle, enabled: runs},
		{menu: "Plan", name: "What would be better…", do: w.advise, enabled: planned},
		{menu: "Plan", name: "Keep the runs as they stand", do: w.keepAll, enabled: runs, rule: true},
		{menu: "Plan", name: "Keep this order", do: w.keepOrder, enabled: runs},
		{menu: "Plan", name: "Let the planner decide everything", do: w.freeAll, enabled: func() bool { return !d.Site().ByHand.IsZero() }},
		{menu: "Plan", name: "What the runs by hand cost…", do: w.handReport, enabled: planned},

		{menu: "Help", name: "Three minutes to the first sketch", do: w.startGuide},
		{menu: "Help", name: "Keys and mouse", plain: "F1", do: w.showKeys},
		{menu: "Help", name: "Signs on the board", do: w.showSigns},
		{menu: "Help", name: "Safety", do: w.showSafety},
		{menu: "Help", name: "Welcome", do: w.showWelcome},
		{menu: "Help", name: "About linemap", do: w.showAbout, rule: true},
	}
}
