package form

import (
	"errors"
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// shelf is a list of parts of the rig, hoses or nozzles, of which one lies open.
type shelf[E any] struct {
	desk  *desk.Desk
	about subject[rig.Rig]
	list  func(*rig.Rig) *[]E
	name  func(*E) *string
	id    func(*E) *string
	clone func(E) E
	word  string
	// fields are those of the i-th part; shape tells when they must be made anew.
	fields func(i int) []field[rig.Rig]
	shape  func(*E) int
	// more are further buttons for the i-th part.
	more func(s *shelf[E], i int) []fyne.CanvasObject

	at      int
	made    [2]int // the part and the shape that the sheet was made for
	page    *page
	pick    *widget.Select
	remove  *widget.Button
	wrong   *widget.Label
	place   *fyne.Container
	sheet   *sheet[rig.Rig]
	picking bool
}

func (s *shelf[E]) init() *shelf[E] {
	s.about = aboutRig(s.desk)
	s.made = [2]int{-1, -1}
	s.pick = widget.NewSelect(nil, func(string) {
		if !s.picking {
			s.at = s.pick.SelectedIndex()
			s.refresh()
		}
	})
	s.wrong = widget.NewLabel("")
	s.wrong.Wrapping, s.wrong.Importance = fyne.TextWrapWord, widget.DangerImportance
	s.place = container.New(&stack{gap: 2})
	add := iconButton("Add", theme.IconNameContentAdd, s.add)
	s.remove = iconButton("Remove", theme.IconNameDelete, s.take)
	s.page = newPage(fyne.NewSize(300, 200), container.NewBorder(nil, nil, nil, container.NewHBox(add, s.remove), s.pick), s.wrong, s.place)
	return s
}

func (s *shelf[E]) parts() []E { return *s.list(&s.desk.Site().Rig) }

func (s *shelf[E]) refresh() {
	parts := s.parts()
	s.at = max(0, min(s.at, len(parts)-1))
	names := make([]string, len(parts))
	for i := range parts {
		names[i] = fmt.Sprintf("%d. %s", i+1, *s.name(&parts[i]))
	}
	s.picking = true
	s.pick.Options, s.pick.Selected, s.pick.PlaceHolder = names, "", "No "+s.word
	if len(names) > 0 {
		s.pick.Selected = names[s.at]
	}
	s.pick.Refresh()
	s.picking = false
	if s.wrong.Text == "" {
		s.wrong.Hide()
	}
	if len(parts) == 0 {
		s.remove.Disable()
		s.place.RemoveAll()
		s.sheet, s.made = nil, [2]int{-1, -1}
		s.page.again()
		return
	}
	s.remove.Enable()
	if shape := [2]int{s.at, s.shape(&parts[s.at])}; shape != s.made {
		s.made = shape
		s.sheet = newSheet(s.desk, s.about, func() { s.page.again() }, s.fields(s.at)...)
		s.place.RemoveAll()
		s.place.Add(s.sheet.box)
		for _, b := range s.more(s, s.at) {
			s.place.Add(b)
		}
	}
	s.sheet.refresh()
	s.page.again()
}

func (s *shelf[E]) settle() bool { return s.sheet == nil || s.sheet.settle() }

// change changes the list as one edit, or says why it cannot.
func (s *shelf[E]) change(to func(l *[]E)) {
	err := s.about.change("", func(r *rig.Rig) { to(s.list(r)) })
	s.wrong.SetText("")
	if err != nil {
		s.wrong.SetText(inWords(err))
		s.wrong.Show()
	}
	s.refresh()
}

// add adds a part like the one that lies open, else like the first of a rig
// that comes with the program.
func (s *shelf[E]) add() {
	parts := s.parts()
	var like E
	if len(parts) > 0 {
		like = parts[s.at]
	} else {
		r, err := site.DefaultRig(string(s.desk.Units()))
		if err != nil || len(*s.list(r)) == 0 {
			return
		}
		like = (*s.list(r))[0]
	}
	like = s.clone(like)
	*s.id(&like) = s.fresh()
	*s.name(&like) = "Another " + s.word
	s.change(func(l *[]E) { *l = append(*l, like) })
	s.at = len(s.parts()) - 1
	s.refresh()
}

// fresh is an ID that no part has.
func (s *shelf[E]) fresh() string {
	parts := s.parts()
	for n := 1; ; n++ {
		id := fmt.Sprint(s.word, n)
		if !slices.ContainsFunc(parts, func(e E) bool { return *s.id(&e) == id }) {
			return id
		}
	}
}

func (s *shelf[E]) take() {
	at := s.at
	s.change(func(l *[]E) {
		if at < len(*l) {
			*l = slices.Delete(*l, at, at+1)
		}
	})
}

// ofPart looks at a figure of the i-th element of a list of the rig; a rig
// without so many has none.
func ofPart[E, P any](list func(*rig.Rig) *[]E, i int, at func(*E) *P) func(*rig.Rig) *P {
	return func(r *rig.Rig) *P {
		if l := *list(r); i < len(l) {
			return at(&l[i])
		}
		return nil
	}
}

func hosesOf(r *rig.Rig) *[]rig.Hose     { return &r.Hoses }
func nozzlesOf(r *rig.Rig) *[]rig.Nozzle { return &r.Nozzles }

func newHoses(d *desk.Desk) *shelf[rig.Hose] {
	type hose = rig.Hose
	return (&shelf[hose]{
		desk: d, list: hosesOf, word: "hose",
		name: func(h *hose) *string { return &h.Name }, id: func(h *hose) *string { return &h.ID },
		clone: func(h hose) hose { return h }, fields: hoseFields, shape: func(*hose) int { return 0 },
		more: func(*shelf[hose], int) []fyne.CanvasObject { return nil },
	}).init()
}

func hoseFields(i int) []field[rig.Rig] {
	type hose = rig.Hose
	length := func(at func(*hose) *unit.Length) func(*rig.Rig) *unit.Length { return ofPart(hosesOf, i, at) }
	angle := func(at func(*hose) *unit.Angle) func(*rig.Rig) *unit.Angle { return ofPart(hosesOf, i, at) }
	size := func(at func(*hose) *unit.Size) func(*rig.Rig) *unit.Size { return ofPart(hosesOf, i, at) }
	return []field[rig.Rig]{
		text("Name", "hoses.name", ofPart(hosesOf, i, func(h *hose) *string { return &h.Name })),
		number("Bore", "hoses.bore", &unit.Bores, length(func(h *hose) *unit.Length { return &h.Bore })),
		number("Length", "hoses.length", &unit.Lengths, length(func(h *hose) *unit.Length { return &h.Length })),
		number("Stays on the reel", "hoses.reserve", &unit.Lengths, length(func(h *hose) *unit.Length { return &h.Reserve })),
		number("Working pressure", "hoses.working_pressure", &unit.Pressures, ofPart(hosesOf, i, func(h *hose) *unit.Pressure { return &h.Working })),
		sizes("Smallest pipe", "hoses.min_pipe", size(func(h *hose) *unit.Size { return &h.MinPipe })),
		sizes("Largest pipe", "hoses.max_pipe", size(func(h *hose) *unit.Size { return &h.MaxPipe })),
		number("Quarter bends", "hoses.bends", &unit.Numbers, ofPart(hosesOf, i, func(h *hose) *float64 { return &h.Bends })),
		number("Sharpest turn", "hoses.sharpest", &unit.Angles, angle(func(h *hose) *unit.Angle { return &h.Sharpest })),
		number("Into a branch", "hoses.branch_turn", &unit.Angles, angle(func(h *hose) *unit.Angle { return &h.BranchTurn })),
		number("Mass, empty", "hoses.mass", &unit.LinearMasses, ofPart(hosesOf, i, func(h *hose) *unit.LinearMass { return &h.Mass })),
		number("Mass, give or take", "hoses.mass_spread", &unit.Shares, ofPart(hosesOf, i, func(h *hose) *float64 { return &h.MassSpread })),
		orNone("Roughness", "hoses.roughness", &unit.Bores, "that of ordinary hose", length(func(h *hose) *unit.Length { return &h.Roughness })),
	}
}

func newNozzles(d *desk.Desk) *shelf[rig.Nozzle] {
	type nozzle = rig.Nozzle
	return (&shelf[nozzle]{
		desk: d, list: nozzlesOf, word: "nozzle",
		name: func(n *nozzle) *string { return &n.Name }, id: func(n *nozzle) *string { return &n.ID },
		clone: func(n nozzle) nozzle {
			n.Purposes, n.Orifices = slices.Clone(n.Purposes), slices.Clone(n.Orifices)
			return n
		},
		fields: func(i int) []field[rig.Rig] {
			sets := 0
			if all := d.Site().Rig.Nozzles; i < len(all) {
				sets = len(all[i].Orifices)
			}
			return nozzleFields(i, sets)
		},
		shape: func(n *nozzle) int { return len(n.Orifices) },
		more: func(s *shelf[nozzle], i int) []fyne.CanvasObject {
			add := iconButton("Add a set of holes", theme.IconNameContentAdd, func() {
				s.change(func(l *[]nozzle) {
					if n := &(*l)[i]; len(n.Orifices) > 0 {
						n.Orifices = append(n.Orifices, n.Orifices[len(n.Orifices)-1])
					}
				})
			})
			remove := iconButton("Remove the last set", theme.IconNameDelete, func() {
				s.change(func(l *[]nozzle) {
					if n := &(*l)[i]; len(n.Orifices) > 0 {
						n.Orifices = n.Orifices[:len(n.Orifices)-1]
					}
				})
			})
			return []fyne.CanvasObject{container.NewHBox(add, remove)}
		},
	}).init()
}

func nozzleFields(i, sets int) []field[rig.Rig] {
	type nozzle = rig.Nozzle
	fields := []field[rig.Rig]{
		text("Name", "nozzles.name", ofPart(nozzlesOf, i, func(n *nozzle) *string { return &n.Name })),
	}
	for _, p := range rig.Purposes() {
		fields = append(fields, purposeField(i, p))
	}
	fields = append(fields,
		sizes("Smallest pipe", "nozzles.min_pipe", ofPart(nozzlesOf, i, func(n *nozzle) *unit.Size { return &n.MinPipe })),
		sizes("Largest pipe", "nozzles.max_pipe", ofPart(nozzlesOf, i, func(n *nozzle) *unit.Size { return &n.MaxPipe })),
		number("Mass", "nozzles.mass", &unit.Masses, ofPart(nozzlesOf, i, func(n *nozzle) *unit.Mass { return &n.Mass })),
		number("Discharge, Cd", "nozzles.discharge", &unit.Numbers, ofPart(nozzlesOf, i, func(n *nozzle) *float64 { return &n.Discharge })),
	)
	for k := range sets {
		fields = append(fields, holeFields(i, k)...)
	}
	return fields
}

// holeFields are those of the k-th set of holes of the i-th nozzle.
func holeFields(i, k int) []field[rig.Rig] {
	set := fmt.Sprintf("Set %d, ", k+1)
	return []field[rig.Rig]{
		whole(set+"holes", "nozzles.orifices.count", ofHoles(i, k, func(o *rig.Orifice) *int { return &o.Count })),
		number(set+"diameter", "nozzles.orifices.diameter", &unit.Bores, ofHoles(i, k, func(o *rig.Orifice) *unit.Length { return &o.Diameter })),
		number(set+"angle", "nozzles.orifices.angle", &unit.Angles, ofHoles(i, k, func(o *rig.Orifice) *unit.Angle { return &o.Angle })),
		keys(set+"facing", "nozzles.orifices.facing", ofHoles(i, k, func(o *rig.Orifice) *rig.Facing { return &o.Facing }), nil),
	}
}

func ofHoles[P any](i, k int, at func(*rig.Orifice) *P) func(*rig.Rig) *P {
	return ofPart(nozzlesOf, i, func(n *rig.Nozzle) *P {
		if k < len(n.Orifices) {
			return at(&n.Orifices[k])
		}
		return nil
	})
}

// purposeField ticks one of the purposes of the i-th nozzle.
func purposeField(i int, p rig.Purpose) field[rig.Rig] {
	return field[rig.Rig]{
		label: export.Capital(export.Word(p)), way: ticked,
		show: func(_ *desk.Desk, r *rig.Rig) (string, bool) {
			switch {
			case i >= len(r.Nozzles):
				return "", false
			case slices.Contains(r.Nozzles[i].Purposes, p):
				return yes, true
			}
			return no, true
		},
		read: func(d *desk.Desk, text string) (func(*rig.Rig), error) {
			if n := d.Site().Rig.Nozzles; text == no && i < len(n) && len(n[i].Purposes) == 1 {
				return nil, errors.New("a nozzle is for something: tick another purpose first")
			}
			return func(r *rig.Rig) {
				if i >= len(r.Nozzles) {
					return
				}
				n := &r.Nozzles[i]
				n.Purposes = slices.DeleteFunc(n.Purposes, func(o rig.Purpose) bool { return o == p })
				if text == yes {
					n.Purposes = append(n.Purposes, p)
				}
				order := rig.Purposes()
				slices.SortFunc(n.Purposes, func(a, b rig.Purpose) int { return slices.Index(order, a) - slices.Index(order, b) })
			}, nil
		},
	}
}
