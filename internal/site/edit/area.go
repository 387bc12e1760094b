package edit

import (
	"fmt"
	"slices"
	"strings"

	"linemap/internal/network"
	"linemap/internal/site"
)

// PlaceArea draws an area of the ground around, with the next free label of its
// kind. A corner that stands twice in a row is one. It errs for an outline that
// encloses no ground or crosses itself.
func PlaceArea(s *site.Site, kind site.AreaKind, outline []network.Point) (*Edit, error) {
	return Make("draw "+kind.Word(), s, func(d *Draft) error {
		taken := labels(s.Areas, func(v *site.Area) string { return v.Label })
		v := site.Area{Label: firstFree(areaLabel(kind)+" %d", 1, taken), Kind: kind, Outline: slices.Compact(slices.Clone(outline))}
		if n := len(v.Outline); n > 1 && v.Outline[0] == v.Outline[n-1] {
			v.Outline = v.Outline[:n-1]
		}
		v.ID = d.AddArea(v)
		d.Made(AreaRef(v.ID))
		return d.outlined(&v, true)
	})
}

// areaLabel is what the labels of areas of a kind begin with: "Keep clear".
func areaLabel(k site.AreaKind) string {
	word := strings.ReplaceAll(string(k), "_", " ")
	return strings.ToUpper(word[:min(1, len(word))]) + word[min(1, len(word)):]
}

// AddAreaCorner puts a corner into the side of an area behind its i-th corner,
// from 0.
func AddAreaCorner(s *site.Site, id site.AreaID, i int, at network.Point) (*Edit, error) {
	return reoutline("add corner", s, id, i, func(v *site.Area) { v.Outline = slices.Insert(v.Outline, i+1, at) })
}

// MoveAreaCorner moves the i-th corner of an area, from 0.
func MoveAreaCorner(s *site.Site, id site.AreaID, i int, to network.Point) (*Edit, error) {
	return reoutline("move corner", s, id, i, func(v *site.Area) { v.Outline[i] = to })
}

// RemoveAreaCorner takes the i-th corner of an area away, from 0. Three are the
// least.
func RemoveAreaCorner(s *site.Site, id site.AreaID, i int) (*Edit, error) {
	return reoutline("remove corner", s, id, i, func(v *site.Area) { v.Outline = slices.Delete(v.Outline, i, i+1) })
}

// SetArea changes one area: its label, its kind, its note.
func SetArea(s *site.Site, id site.AreaID, to func(*site.Area)) (*Edit, error) {
	return Change(s, "change area", Select(AreaRef(id)), Changes{Area: to})
}

// reoutline changes the outline of a copy of an area at its i-th corner, and
// takes it.
func reoutline(name string, s *site.Site, id site.AreaID, i int, change func(*site.Area)) (*Edit, error) {
	return Make(name, s, func(d *Draft) error {
		k := slices.IndexFunc(s.Areas, func(v site.Area) bool { return v.ID == id })
		if k < 0 {
			return fmt.Errorf("there is no area %q on the site", id)
		}
		v := s.Areas[k].Clone()
		_, wrong := s.OutlineFinding(&v)
		if i < 0 || i >= len(v.Outline) {
			return fmt.Errorf("%s has %d corners, and none of number %d", v.Name(), len(v.Outline), i+1)
		}
		change(&v)
		d.SetArea(k, v)
		d.Made(AreaRef(id))
		return d.outlined(&v, !wrong)
	})
}

// outlined errs where an area cannot be, or, where that matters, where its
// outline is wrong.
func (d *Draft) outlined(v *site.Area, matters bool) error {
	for _, at := range v.Outline {
		if err := d.onPlan("the corner", at); err != nil {
			return err
		}
	}
	if f, wrong := d.site.OutlineFinding(v); wrong && matters {
		return fmt.Errorf("%s (%s)", strings.TrimSuffix(f.What, "."), f.Value)
	}
	if err := site.Check(*v); err != nil {
		return fmt.Errorf("%s: %w", v.Name(), err)
	}
	return nil
}
