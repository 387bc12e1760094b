package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// nextPipe is the bar over the board: what the next pipe is made of, and the
// level that is drawn on.
type nextPipe struct {
	w        *Window
	bar      fyne.CanvasObject
	size     *pick[unit.Size]
	material *pick[network.Material]
	class    *pick[network.PipeClass]
	deposit  *pick[network.Deposit]
	severity *pick[network.Severity]
	fall     *widget.Entry
	level    *list
	quiet    bool // the bar is being brought up to date
}

// pick is a list of keys to choose from by their words.
type pick[K comparable] struct {
	list *list
	keys []K
}

func newPick[K comparable](w *Window, keys []K, say func(K) string, do func(K)) *pick[K] {
	p := &pick[K]{keys: keys}
	words := make([]string, len(keys))
	for i, k := range keys {
		words[i] = say(k)
	}
	p.list = newList(w, words, func(string) {
		if i := p.list.SelectedIndex(); i >= 0 {
			do(p.keys[i])
		}
	})
	return p
}

func (p *pick[K]) show(k K) {
	if i := slices.Index(p.keys, k); i >= 0 && i != p.list.SelectedIndex() {
		p.list.SetSelectedIndex(i)
	}
}

// chosen returns a pick of the keys that the schema takes for a member of a
// pipe.
func chosen[K ~string](w *Window, n *nextPipe, member string, say func(K) string, at func(*edit.PipeStyle) *K) *pick[K] {
	r, err := site.RangeOf(network.Pipe{}, member)
	if err != nil {
		w.tell(err)
	}
	keys := make([]K, len(r.Choices))
	for i, c := range r.Choices {
		keys[i] = K(c)
	}
	return newPick(w, keys, say, func(k K) { n.set(func(s *edit.PipeStyle) { *at(s) = k }) })
}

func newNextPipe(w *Window) *nextPipe {
	n := &nextPipe{w: w}
	sys := w.units()
	n.size = newPick(w, unit.Sizes(), func(s unit.Size) string { return s.In(sys) }, func(k unit.Size) {
		n.set(func(s *edit.PipeStyle) { s.Size = k })
	})
	tables := w.desk.Tables()
	n.material = chosen(w, n, "material", func(m network.Material) string { return tables.Materials[m].Name }, func(s *edit.PipeStyle) *network.Material { return &s.Material })
	n.class = chosen(w, n, "class", spoken[network.PipeClass], func(s *edit.PipeStyle) *network.PipeClass { return &s.Class })
	n.deposit = chosen(w, n, "deposit", spoken[network.Deposit], func(s *edit.PipeStyle) *network.Deposit { return &s.Deposit })
	n.severity = chosen(w, n, "severity", spoken[network.Severity], func(s *edit.PipeStyle) *network.Severity { return &s.Severity })
	n.fall = widget.NewEntry()
	n.fall.SetPlaceHolder("fall unknown")
	n.fall.OnSubmitted = func(string) { n.takeFall(); w.board.Focus() }
	n.level = newList(w, nil, func(name string) {
		if !n.quiet {
			w.desk.SetLevel(name)
		}
	})
	wide := func(w width, o fyne.CanvasObject) fyne.CanvasObject { return container.New(w, o) }
	row := container.NewHBox(widget.NewLabel("Next pipe"), wide(90, n.size.list), wide(160, n.material.list), wide(140, n.class.list),
		wide(125, n.deposit.list), wide(112, n.severity.list), wide(95, n.fall), widget.NewSeparator(), widget.NewLabel("Level"), wide(140, n.level))
	n.bar = container.NewBorder(nil, widget.NewSeparator(), nil, nil, container.NewHScroll(row))
	return n
}

// set changes what the next pipe is made of.
func (n *nextPipe) set(change func(*edit.PipeStyle)) {
	if n.quiet {
		return
	}
	s := n.w.desk.PipeStyle()
	change(&s)
	n.w.desk.SetPipeStyle(s)
	n.w.board.Focus()
}

// takeFall reads the fall that was typed; an empty one is unknown.
func (n *nextPipe) takeFall() {
	if n.fall.Text == "" {
		n.set(func(s *edit.PipeStyle) { s.Slope = nil })
		return
	}
	fall, err := unit.Slopes.Parse(n.fall.Text, n.w.units())
	if err == nil {
		style := n.w.desk.PipeStyle()
		style.Slope = &fall
		err = style.Check()
	}
	if err != nil {
		n.w.tell(err)
		n.follow()
		return
	}
	n.set(func(s *edit.PipeStyle) { s.Slope = &fall })
}

// follow brings the bar up to date.
func (n *nextPipe) follow() {
	n.quiet = true
	defer func() { n.quiet = false }()
	s := n.w.desk.PipeStyle()
	words := make([]string, len(n.size.keys))
	for i, k := range n.size.keys {
		words[i] = k.In(n.w.units())
	}
	if !slices.Equal(words, n.size.list.Options) {
		n.size.list.SetOptions(words)
		n.size.list.ClearSelected()
	}
	n.size.show(s.Size)
	n.material.show(s.Material)
	n.class.show(s.Class)
	n.deposit.show(s.Deposit)
	n.severity.show(s.Severity)
	fall := ""
	if s.Slope != nil {
		fall = unit.Slopes.Write(*s.Slope, n.w.units())
	}
	if n.fall.Text != fall && n.w.win.Canvas().Focused() != n.fall {
		n.fall.SetText(fall)
	}
	var names []string
	for _, l := range n.w.desk.Site().Network.Levels {
		names = append(names, l.Name)
	}
	if !slices.Equal(names, n.level.Options) {
		n.level.SetOptions(names)
	}
	if len(names) == 0 {
		n.level.PlaceHolder = "one level"
		n.level.ClearSelected()
		n.level.Disable()
		return
	}
	n.level.Enable()
	if n.level.Selected != n.w.desk.Level() {
		n.level.SetSelected(n.w.desk.Level())
	}
}

// spoken is the trade's word for a key, with a capital.
func spoken[K ~string](k K) string { return export.Capital(export.Word(k)) }
