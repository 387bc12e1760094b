package edit

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// AddLevel adds a level. Its name must be another than that of any level. On a
// site that has none, what is sketched so far goes onto it.
func AddLevel(s *site.Site, name string, elevation unit.Length) (*Edit, error) {
	return Make("add level", s, func(d *Draft) error {
		l := network.Level{Name: name, Elevation: elevation}
		if err := checkLevel(s, l, -1); err != nil {
			return err
		}
		d.AddLevel(l)
		if len(s.Network.Levels) == 1 {
			d.relevel(name, func(_ Ref, level string) bool { return level == "" })
		}
		return nil
	})
}

// StoreyAbove is how high the next level lies as a rule (common practice): a
// storey above the highest, the first at the datum.
func StoreyAbove(s *site.Site) unit.Length {
	levels := s.Network.Levels
	if len(levels) == 0 {
		return 0
	}
	top := slices.MaxFunc(levels, func(a, b network.Level) int { return cmp.Compare(a.Elevation, b.Elevation) })
	if s.Units == unit.Metric {
		return top.Elevation + unit.Metres(3)
	}
	return top.Elevation + unit.Feet(10)
}

// RenameLevel gives a level another name; what is on it follows.
func RenameLevel(s *site.Site, old, name string) (*Edit, error) {
	return Make("rename level", s, func(d *Draft) error {
		i, err := levelIndex(s, old)
		if err != nil || name == old {
			return err
		}
		l := s.Network.Levels[i]
		l.Name = name
		if err := checkLevel(s, l, i); err != nil {
			return err
		}
		d.SetLevel(i, l)
		d.relevel(name, func(_ Ref, level string) bool { return level == old })
		return nil
	})
}

// SetLevelElevation says how high the pipes of a level lie above the site's
// datum. Inverts that were measured stay.
func SetLevelElevation(s *site.Site, name string, elevation unit.Length) (*Edit, error) {
	return Make("change level", s, func(d *Draft) error {
		i, err := levelIndex(s, name)
		if err != nil || s.Network.Levels[i].Elevation == elevation {
			return err
		}
		l := s.Network.Levels[i]
		l.Elevation = elevation
		if err := checkLevel(s, l, i); err != nil {
			return err
		}
		d.SetLevel(i, l)
		return nil
	})
}

// RemoveLevel removes a level with nothing on it.
func RemoveLevel(s *site.Site, name string) (*Edit, error) {
	return Make("remove level", s, func(d *Draft) error {
		if _, err := levelIndex(s, name); err != nil {
			return err
		}
		switch n := onLevel(s, name); {
		case n == 1:
			return fmt.Errorf("level %q cannot be removed: 1 thing is on it; move it to another level or delete it first", name)
		case n > 1:
			return fmt.Errorf("level %q cannot be removed: %d things are on it; move them to another level or delete them first", name, n)
		}
		d.RemoveLevels(func(l *network.Level) bool { return l.Name == name })
		return nil
	})
}

// MoveToLevel puts what is selected on a level, pipes with both their ends. An
// empty name takes it off every level. It errs where nothing selected is ever
// on a level, as spots and water points are not.
func MoveToLevel(s *site.Site, sel Selection, level string) (*Edit, error) {
	if _, err := called("", s, sel); err != nil {
		return nil, err
	}
	return Make("move to another level", s, func(d *Draft) error {
		if err := levelThere(s, level); err != nil {
			return err
		}
		ends := map[Ref]bool{}
		for i := range s.Network.Pipes {
			if p := &s.Network.Pipes[i]; sel.Has(PipeRef(p.ID)) {
				ends[NodeRef(p.From)], ends[NodeRef(p.To)] = true, true
			}
		}
		n := d.relevel(level, func(r Ref, _ string) bool { return sel.Has(r) || ends[r] })
		if n == 0 {
			return errors.New("nothing selected is on a level: spots, water points, lays and areas belong to the whole site")
		}
		return nil
	})
}

// relevel puts nodes, notes and underlays on a level, and counts those that it
// was to put there, wherever they were.
func (d *Draft) relevel(level string, which func(r Ref, level string) bool) int {
	n := 0
	for i := range d.site.Network.Nodes {
		if v := d.site.Network.Nodes[i]; which(NodeRef(v.ID), v.Level) {
			if n++; v.Level != level {
				v.Level = level
				set(d, nodesOf, i, v)
			}
		}
	}
	for i := range d.site.Notes {
		if v := d.site.Notes[i]; which(NoteRef(v.ID), v.Level) {
			if n++; v.Level != level {
				v.Level = level
				d.SetNote(i, v)
			}
		}
	}
	for i := range d.site.Underlays {
		if v := d.site.Underlays[i]; which(UnderlayRef(v.ID), v.Level) {
			if n++; v.Level != level {
				v.Level = level
				d.SetUnderlay(i, v)
			}
		}
	}
	return n
}

// onLevel counts the nodes, notes and underlays on a level.
func onLevel(s *site.Site, level string) int {
	n := 0
	for i := range s.Network.Nodes {
		if s.Network.Nodes[i].Level == level {
			n++
		}
	}
	for i := range s.Notes {
		if s.Notes[i].Level == level {
			n++
		}
	}
	for i := range s.Underlays {
		if s.Underlays[i].Level == level {
			n++
		}
	}
	return n
}

func levelIndex(s *site.Site, name string) (int, error) {
	i := slices.IndexFunc(s.Network.Levels, func(l network.Level) bool { return l.Name == name })
	if i < 0 {
		return i, noLevel(name)
	}
	return i, nil
}

func noLevel(name string) error { return fmt.Errorf("there is no level %q", name) }

func hasLevel(s *site.Site, name string) bool {
	return slices.ContainsFunc(s.Network.Levels, func(l network.Level) bool { return l.Name == name })
}

// levelThere errs where a thing cannot be put on a level; the empty name stands
// for none.
func levelThere(s *site.Site, name string) error {
	if name == "" || hasLevel(s, name) {
		return nil
	}
	return noLevel(name)
}

// checkLevel says why l cannot be the i-th level, or one more for -1.
func checkLevel(s *site.Site, l network.Level, i int) error {
	if err := site.Check(l); err != nil {
		return fmt.Errorf("level %q: %w", l.Name, err)
	}
	for k := range s.Network.Levels {
		if k != i && s.Network.Levels[k].Name == l.Name {
			return fmt.Errorf("there is a level %q already", l.Name)
		}
	}
	return nil
}
