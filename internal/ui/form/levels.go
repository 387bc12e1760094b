package form

import (
	"maps"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// codes are the code editions of the tables.
func codes(d *desk.Desk, s *site.Site) []option[string] {
	all := d.Tables().Codes
	var out []option[string]
	for _, key := range slices.Sorted(maps.Keys(all)) {
		out = append(out, option[string]{key, all[key].Name})
	}
	if _, known := all[s.Code]; !known {
		out = append(out, option[string]{s.Code, s.Code + " (not in the tables)"})
	}
	return out
}

// LevelsForm opens the form of the levels: their names and heights, with the
// means to add and remove them.
func LevelsForm(d *desk.Desk, w fyne.Window) {
	l := newLevels(d, w)
	open(d, w, "Levels", fyne.NewSize(460, 480), l.page, l)
}

// levels is the list of the site's levels.
type levels struct {
	desk   *desk.Desk
	window fyne.Window
	page   *page
	list   *fyne.Container
	name   *widget.Entry
	wrong  *widget.Label
	sheets []*sheet[network.Level]
}

func newLevels(d *desk.Desk, w fyne.Window) *levels {
	l := &levels{desk: d, window: w, list: container.New(&stack{gap: 6}), name: widget.NewEntry(), wrong: widget.NewLabel("")}
	l.name.PlaceHolder = "Name of another level"
	l.name.OnSubmitted = func(string) { l.add() }
	l.wrong.Wrapping, l.wrong.Importance = fyne.TextWrapWord, widget.DangerImportance
	l.wrong.Hide()
	add := iconButton("Add", theme.IconNameContentAdd, l.add)
	l.page = newPage(fyne.NewSize(300, 200), l.list, container.NewBorder(nil, nil, nil, add, l.name), l.wrong)
	return l
}

func (l *levels) add() {
	name := strings.TrimSpace(l.name.Text)
	e, err := edit.AddLevel(l.desk.Site(), name, edit.StoreyAbove(l.desk.Site()))
	l.say(err)
	if err == nil {
		l.name.SetText("")
		l.desk.Do(e)
	}
}

func (l *levels) say(err error) {
	l.wrong.Hide()
	if err != nil {
		l.wrong.SetText(inWords(err))
		l.wrong.Show()
	}
	l.page.again()
}

func (l *levels) refresh() {
	if n := len(l.desk.Site().Network.Levels); n != len(l.sheets) {
		l.list.RemoveAll()
		l.sheets = nil
		for i := range n {
			s := newSheet(l.desk, l.about(i), func() { l.page.again() }, levelFields()...)
			l.sheets = append(l.sheets, s)
			remove := iconButton("Remove", theme.IconNameDelete, func() { l.remove(i) })
			l.list.Add(container.NewBorder(nil, nil, nil, container.NewVBox(remove), s.box))
		}
	}
	for _, s := range l.sheets {
		s.refresh()
	}
	l.page.again()
}

func (l *levels) settle() bool {
	right := true
	for _, s := range l.sheets {
		right = s.settle() && right
	}
	return right
}

func (l *levels) remove(i int) {
	if i >= len(l.desk.Site().Network.Levels) {
		return
	}
	e, err := edit.RemoveLevel(l.desk.Site(), l.desk.Site().Network.Levels[i].Name)
	if err != nil {
		sayProblem(l.window, "The level stays", err)
		return
	}
	l.desk.Do(e)
}

// about is the i-th level as a subject.
func (l *levels) about(i int) subject[network.Level] {
	return partOf(l.desk, func(s *site.Site) *network.Level {
		if i >= len(s.Network.Levels) {
			return nil
		}
		return &s.Network.Levels[i]
	}, func(v network.Level) network.Level { return v }, func(s *site.Site, v network.Level) (*edit.Edit, error) {
		if was := s.Network.Levels[i].Name; was != v.Name {
			return edit.RenameLevel(s, was, v.Name)
		}
		return edit.SetLevelElevation(s, v.Name, v.Elevation)
	}, "level")
}

func levelFields() []field[network.Level] {
	return []field[network.Level]{
		text("Name", "name", func(v *network.Level) *string { return &v.Name }),
		number("Height", "elevation", &unit.Lengths, func(v *network.Level) *unit.Length { return &v.Elevation }),
	}
}
