package edit

import (
	"linemap/internal/site"
)

// Edit is one step on a site: what the user calls it and what it changes.
type Edit struct {
	name  string
	steps []step
	// made is what the edit leaves for the user to go on with.
	made  []Ref
	merge string
}

// step is one change that can be taken back.
type step interface {
	do(s *site.Site)
	undo(s *site.Site)
}

// Name says what the edit does, for "Undo draw pipe".
func (e *Edit) Name() string { return e.name }

// Made lists what the edit leaves for the user to go on with: what it drew,
// placed or pasted.
func (e *Edit) Made() []Ref { return e.made }

// Empty reports whether the edit changes nothing.
func (e *Edit) Empty() bool { return len(e.steps) == 0 }

// Do carries the edit out on the site it was made for.
func (e *Edit) Do(s *site.Site) {
	for _, st := range e.steps {
		st.do(s)
	}
}

// Undo takes the edit back.
func (e *Edit) Undo(s *site.Site) {
	for i := len(e.steps) - 1; i >= 0; i-- {
		e.steps[i].undo(s)
	}
}

// Merging lets the edit join the one before it in a [History] where that has
// the same key: ten nudges of one thing are taken back as one.
func (e *Edit) Merging(key string) *Edit {
	e.merge = key
	return e
}

// Make returns the edit that change makes, under a name. The site is as it was
// when Make returns, whether change errs or not.
func Make(name string, s *site.Site, change func(d *Draft) error) (*Edit, error) {
	d := &Draft{site: s, edit: &Edit{name: name}}
	defer d.edit.Undo(s) // not that of a nil edit: d keeps it
	if err := change(d); err != nil {
		return nil, err
	}
	if err := s.CheckSize(); err != nil {
		return nil, err
	}
	return d.edit, nil
}

// assign puts a new value in the place of an old one.
type assign[T any] struct {
	field    func(*site.Site) *T
	old, new T
}

func (a *assign[T]) do(s *site.Site)   { *a.field(s) = a.new }
func (a *assign[T]) undo(s *site.Site) { *a.field(s) = a.old }

// swap exchanges a list for another. Each is held either by the site, where
// other steps write into it and take that back again, or by the swap.
type swap[T any] struct {
	list  func(*site.Site) *[]T
	other []T
}

func (w *swap[T]) do(s *site.Site) {
	held := w.list(s)
	*held, w.other = w.other, *held
}

func (w *swap[T]) undo(s *site.Site) { w.do(s) }

// replace puts a new element in the place of an old one of a list.
type replace[T any] struct {
	list     func(*site.Site) *[]T
	at       int
	old, new T
}

func (r *replace[T]) do(s *site.Site)   { (*r.list(s))[r.at] = r.new }
func (r *replace[T]) undo(s *site.Site) { (*r.list(s))[r.at] = r.old }

// insert puts an element into a list. A list that was nil is nil again when it
// is taken back, so that it is written as before.
type insert[T any] struct {
	list   func(*site.Site) *[]T
	at     int
	value  T
	wasNil bool
}

func (in *insert[T]) do(s *site.Site)   { put(in.list(s), in.at, in.value) }
func (in *insert[T]) undo(s *site.Site) { take(in.list(s), in.at, in.wasNil) }

// remove takes an element out of a list. A list that would be empty becomes
// nil where the file may leave it out.
type remove[T any] struct {
	list    func(*site.Site) *[]T
	at      int
	value   T
	nilable bool
}

func (r *remove[T]) do(s *site.Site)   { take(r.list(s), r.at, r.nilable) }
func (r *remove[T]) undo(s *site.Site) { put(r.list(s), r.at, r.value) }

func put[T any](list *[]T, at int, v T) {
	*list = append(*list, v)
	copy((*list)[at+1:], (*list)[at:])
	(*list)[at] = v
}

func take[T any](list *[]T, at int, toNil bool) {
	l := *list
	copy(l[at:], l[at+1:])
	var none T
	l[len(l)-1] = none // lets go of what it points to
	*list = l[:len(l)-1]
	if len(*list) == 0 && toNil {
		*list = nil
	}
}
