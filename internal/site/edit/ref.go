package edit

import (
	"cmp"
	"maps"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
)

// Kind tells what a [Ref] refers to.
type Kind string

// The kinds of things that can be selected.
const (
	Node     Kind = "node"
	Pipe     Kind = "pipe"
	Spot     Kind = "spot"
	Water    Kind = "water"
	Lay      Kind = "lay"
	Area     Kind = "area"
	Note     Kind = "note"
	Underlay Kind = "underlay"
)

// Ref names one thing of a site. The ID of a lay is that of [LayRef].
type Ref struct {
	Kind Kind
	ID   string
}

// NodeRef refers to a node.
func NodeRef(id network.NodeID) Ref { return Ref{Node, string(id)} }

// PipeRef refers to a pipe.
func PipeRef(id network.PipeID) Ref { return Ref{Pipe, string(id)} }

// SpotRef refers to a spot.
func SpotRef(id site.SpotID) Ref { return Ref{Spot, string(id)} }

// WaterRef refers to a water point.
func WaterRef(id site.WaterID) Ref { return Ref{Water, string(id)} }

// AreaRef refers to an area.
func AreaRef(id site.AreaID) Ref { return Ref{Area, string(id)} }

// NoteRef refers to a note.
func NoteRef(id site.NoteID) Ref { return Ref{Note, string(id)} }

// UnderlayRef refers to an underlay.
func UnderlayRef(id site.UnderlayID) Ref { return Ref{Underlay, string(id)} }

// LayRef refers to a lay by its ends.
func LayRef(l *site.Lay) Ref {
	if l.Access != "" {
		return Ref{Lay, string(l.Spot) + ">" + string(l.Access)}
	}
	return Ref{Lay, string(l.Spot) + "<" + string(l.Water)}
}

// Selection is a set of things. The zero Selection is empty; a Selection is
// never changed, its methods return another.
type Selection struct{ refs map[Ref]struct{} }

// Select returns the selection of some things.
func Select(refs ...Ref) Selection {
	s := Selection{make(map[Ref]struct{}, len(refs))}
	for _, r := range refs {
		s.refs[r] = struct{}{}
	}
	return s
}

// Has reports whether r is selected.
func (s Selection) Has(r Ref) bool { _, ok := s.refs[r]; return ok }

// Len is the number of things selected.
func (s Selection) Len() int { return len(s.refs) }

// Refs lists what is selected, by kind and ID.
func (s Selection) Refs() []Ref {
	return slices.SortedFunc(maps.Keys(s.refs), func(a, b Ref) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.ID, b.ID))
	})
}

// With returns s and more.
func (s Selection) With(refs ...Ref) Selection { return Select(append(s.Refs(), refs...)...) }

// Toggle returns s with r if it was without, and without it if it was with.
func (s Selection) Toggle(r Ref) Selection {
	if s.Has(r) {
		return s.Keep(func(o Ref) bool { return o != r })
	}
	return s.With(r)
}

// Keep returns the part of s for which keep holds.
func (s Selection) Keep(keep func(Ref) bool) Selection {
	return Select(slices.DeleteFunc(s.Refs(), func(r Ref) bool { return !keep(r) })...)
}
