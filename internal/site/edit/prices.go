package edit

import (
	"fmt"
	"reflect"

	"linemap/internal/site"
)

// SetPrices puts other prices, a copy of p, in the place of the site's; the
// zero value takes them away. It errs where a file could not keep them.
func SetPrices(s *site.Site, p site.Prices) (*Edit, error) {
	none := reflect.ValueOf(p).IsZero()
	return Make("change prices", s, func(d *Draft) error {
		if err := site.Check(p); err != nil && !none {
			return fmt.Errorf("prices: %w", err)
		}
		if !reflect.DeepEqual(p, s.Prices) {
			d.SetPrices(p.Clone())
		}
		return nil
	})
}
