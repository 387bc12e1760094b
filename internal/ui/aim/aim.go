// Package aim finds what lies under the pointer and where the pointer is drawn
// to. It is pure: places in, places out.
package aim

import (
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// Index finds things of a site by place. It is made once for each change of the
// site and never changed, so that any goroutine may use it.
type Index struct{}

// NewIndex indexes a site in near linear time.
func NewIndex(s *site.Site, g *network.Graph) *Index { panic("contract") }

// Hit is a thing under the pointer.
type Hit struct {
	Ref edit.Ref
	// At is the place of it that is nearest to the pointer, Along how far along
	// a pipe from its From end, as drawn on the plan. Corner is the index in
	// the pipe's Via of the corner that was hit, -1 for none.
	At     network.Point
	Along  unit.Length
	Corner int
}

// At returns the thing at a place of a level, within a distance: nodes before
// spots, water points and notes, those before pipes and lays, those before
// underlays; the nearest of equals. A nil filter takes every thing.
func (x *Index) At(p network.Point, level string, within unit.Length, filter func(edit.Ref) bool) (Hit, bool) {
	panic("contract")
}

// In returns what lies in a box of a level: with crossing, also what only
// crosses it.
func (x *Index) In(a, b network.Point, level string, crossing bool) []edit.Ref { panic("contract") }
