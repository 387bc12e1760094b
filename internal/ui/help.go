package ui

import (
	"fmt"
	"runtime/debug"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/ui/board"
	"linemap/internal/ui/hand"
)

// pair is a line of help: a key or a word, and what it does or means.
type pair struct{ left, right string }

// mouse is what the mouse does, whatever tool is in hand.
var mouse = []pair{
	{"Wheel", "nearer or farther, at the pointer"},
	{"Ctrl + wheel", "up and down"},
	{"Shift + wheel", "left and right"},
	{"Middle button, drag", "move the board"},
	{"Space, drag", "move the board"},
	{"Click", "pick a thing, or place with the tool in hand"},
	{"Shift + click", "pick one more, or one less"},
	{"Drag over empty board", "to the right: what lies inside; to the left: what the frame touches"},
	{"Right click", "menu of what is picked"},
	{"Double click a pipe", "a new corner; in the edge of an area too"},
	{"Arrows", "nudge by a step of the grid; with Alt by a tenth"},
	{"Type a length, Return", "while drawing: the next corner so far away"},
	{"Tab, an angle, Return", "while drawing a pipe: turned so many degrees"},
	{"Tab", "while drawing an area: what it is for"},
	{"Shift held", "while drawing: any angle"},
	{"Backspace", "while drawing: takes back the last corner"},
	{"Escape", "one step back; at last the pick tool"},
}

// showKeys lists every key and what the mouse does.
func (w *Window) showKeys() {
	var tools, commands []pair
	for _, e := range hand.Kit() {
		tools = append(tools, pair{e.Key, e.Name})
	}
	for _, c := range w.commands() {
		if key := keyName(c); key != "" {
			commands = append(commands, pair{key, c.name})
		}
	}
	w.page("Keys and mouse", container.NewGridWithColumns(2,
		container.NewVBox(heading("Mouse and drawing"), table(mouse), heading("Tools"), table(tools)),
		container.NewVBox(heading("Commands"), table(commands)),
	))
}

// keyName writes the key of a command: "Ctrl+Shift+S".
func keyName(c command) string {
	switch k := c.key.(type) {
	case *desktop.CustomShortcut:
		name := "Ctrl+"
		if k.Modifier&fyne.KeyModifierShift != 0 {
			name += "Shift+"
		}
		return name + string(k.KeyName)
	case *fyne.ShortcutUndo:
		return "Ctrl+Z"
	case *fyne.ShortcutRedo:
		return "Ctrl+Y"
	case *fyne.ShortcutCut:
		return "Ctrl+X"
	case *fyne.ShortcutCopy:
		return "Ctrl+C"
	case *fyne.ShortcutPaste:
		return "Ctrl+V"
	case *fyne.ShortcutSelectAll:
		return "Ctrl+A"
	}
	return c.plain
}

// table sets pairs in two columns.
func table(pairs []pair) fyne.CanvasObject {
	grid := container.New(pairsLayout{})
	for _, p := range pairs {
		left := widget.NewLabel(p.left)
		left.TextStyle.Monospace = true
		right := widget.NewLabel(p.right)
		right.Wrapping = fyne.TextWrapWord
		grid.Add(left)
		grid.Add(right)
	}
	return grid
}

// showSigns explains what stands on the board.
func (w *Window) showSigns() {
	img, err := board.Signs(w.units(), w.board.Look())
	if err != nil {
		w.tell(err)
		return
	}
	picture := canvas.NewImageFromImage(img)
	picture.FillMode = canvas.ImageFillContain
	size := img.Bounds().Size()
	picture.SetMinSize(fyne.NewSize(float32(size.X)/2, float32(size.Y)/2))
	w.page("Signs on the board", picture)
}

// showSafety shows the rules of safety that stand on every run sheet.
func (w *Window) showSafety() {
	var b strings.Builder
	for _, c := range export.Cautions(w.units()) {
		fmt.Fprintf(&b, "**%s.** %s\n\n", c.Head, c.Say)
	}
	b.WriteString("**" + export.LastWord + "**")
	text := widget.NewRichTextFromMarkdown(b.String())
	text.Wrapping = fyne.TextWrapWord
	w.page("Safety", text)
}

func (w *Window) showAbout() {
	version := "a build of one's own"
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		version = info.Main.Version
	}
	w.report("linemap", "Plans the cleaning of a building's drains with a trailer-mounted water jetter.\nVersion: "+version,
		"This program plans the work; it does not replace judgement on site.")
}

// page opens a dialog for reading.
func (w *Window) page(title string, body fyne.CanvasObject) {
	d := dialog.NewCustom(title, "Close", container.NewVScroll(body), w.win)
	size := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(900, size.Width-40), min(620, size.Height-60)))
	d.Show()
}

// pairsLayout lays pairs in two columns, the second wrapped.
type pairsLayout struct{}

// pairLeft is the width of the left column.
func pairLeft() float32 { return 190 * theme.TextSize() / 13 }

// MinSize is for Fyne.
func (pairsLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	h := float32(0)
	for i := 0; i+1 < len(objects); i += 2 {
		h += max(objects[i].MinSize().Height, objects[i+1].MinSize().Height) - 8
	}
	return fyne.NewSize(pairLeft()+180, h+8)
}

// Layout is for Fyne.
func (pairsLayout) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	y, wide := float32(0), pairLeft()
	for i := 0; i+1 < len(objects); i += 2 {
		left, right := objects[i], objects[i+1]
		right.Resize(fyne.NewSize(s.Width-wide, right.MinSize().Height))
		left.Resize(fyne.NewSize(wide, left.MinSize().Height))
		left.Move(fyne.NewPos(0, y))
		right.Move(fyne.NewPos(wide, y))
		y += max(left.MinSize().Height, right.MinSize().Height) - 8
	}
}
