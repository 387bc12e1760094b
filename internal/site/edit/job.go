package edit

import (
	"fmt"
	"reflect"
	"unicode/utf8"

	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// SetJob says for whom, where and when. It errs where a file could not keep it.
func SetJob(s *site.Site, j site.Job) (*Edit, error) {
	return Make("change job", s, func(d *Draft) error {
		if err := site.Check(j); err != nil {
			return fmt.Errorf("job: %w", err)
		}
		if j != s.Job {
			d.SetJob(j)
		}
		return nil
	})
}

// SetRig puts another rig, a copy of r, in the place of the site's. It errs
// where a file could not keep it; what else is odd about it is for the findings
// to say.
func SetRig(s *site.Site, r rig.Rig) (*Edit, error) {
	return Make("change rig", s, func(d *Draft) error {
		if err := site.Check(r); err != nil {
			return fmt.Errorf("rig: %w", err)
		}
		if !reflect.DeepEqual(r, s.Rig) {
			d.SetRig(r.Clone())
		}
		return nil
	})
}

// SetUnits chooses the units that people read.
func SetUnits(s *site.Site, u unit.System) (*Edit, error) {
	return Make("change units", s, func(d *Draft) error {
		known, err := unit.ParseSystem(string(u))
		if err == nil && known != s.Units {
			d.SetUnits(known)
		}
		return err
	})
}

// SetPaper chooses the paper.
func SetPaper(s *site.Site, p site.Paper) (*Edit, error) {
	return Make("change paper", s, func(d *Draft) error {
		if p != site.Letter && p != site.A4 {
			return fmt.Errorf("paper %q, must be %q or %q", p, site.Letter, site.A4)
		}
		if p != s.Paper {
			d.SetPaper(p)
		}
		return nil
	})
}

// SetGeo says where on Earth the site lies, nil for not known. It errs where a
// file could not keep it.
func SetGeo(s *site.Site, to *site.Geo) (*Edit, error) {
	return Make("change place on Earth", s, func(d *Draft) error {
		if to != nil {
			if err := site.Check(*to); err != nil {
				return fmt.Errorf("place on Earth: %w", err)
			}
			own := *to
			to = &own
		}
		if !reflect.DeepEqual(to, s.Geo) {
			d.SetGeo(to)
		}
		return nil
	})
}

// SetCode chooses the code edition by its key. One that the tables do not have
// is for the findings to tell of.
func SetCode(s *site.Site, key string) (*Edit, error) {
	return Make("change code edition", s, func(d *Draft) error {
		const most = 64 // characters, as the schema has it
		if utf8.RuneCountInString(key) > most || !utf8.ValidString(key) {
			return fmt.Errorf("code edition %.80q, must be a text of at most %d characters", key, most)
		}
		if key != s.Code {
			d.SetCode(key)
		}
		return nil
	})
}
