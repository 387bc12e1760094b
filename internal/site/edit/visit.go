package edit

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"linemap/internal/site"
)

// SetVisit puts a visit, a copy of v, in the place of that of its day, or in
// its place among the others where the day had none. It errs where a file could
// not keep it.
func SetVisit(s *site.Site, v site.Visit) (*Edit, error) {
	return Make("change visit", s, func(d *Draft) error {
		if err := site.Check(v); err != nil {
			return fmt.Errorf("visit of %.20q: %w", v.Date, err)
		}
		i, there := slices.BinarySearchFunc(s.Visits, v.Date, byDay)
		switch {
		case !there:
			d.insertVisit(i, v.Clone())
		case !reflect.DeepEqual(s.Visits[i], v):
			d.setVisit(i, v.Clone())
		}
		return nil
	})
}

// RemoveVisit takes away the visit of a day.
func RemoveVisit(s *site.Site, date string) (*Edit, error) {
	return Make("remove visit", s, func(d *Draft) error {
		if s.Visit(date) == nil {
			return fmt.Errorf("there is no visit of %.20q", date)
		}
		d.removeVisit(date)
		return nil
	})
}

func byDay(v site.Visit, date string) int { return strings.Compare(v.Date, date) }

func (d *Draft) insertVisit(i int, v site.Visit) {
	d.step(&insert[site.Visit]{visitsOf, i, v, d.site.Visits == nil})
}

func (d *Draft) setVisit(i int, v site.Visit) { set(d, visitsOf, i, v) }

func (d *Draft) removeVisit(date string) {
	drop(d, visitsOf, func(v *site.Visit) bool { return v.Date == date }, true)
}

func visitsOf(s *site.Site) *[]site.Visit { return &s.Visits }
