package advice

import (
	"context"

	"linemap/internal/rig"
	"linemap/internal/site"
)

// Report is all the advice on one site.
type Report struct {
	// Now is the site as it stands, without decisions made by hand.
	Now       Outcome   `json:"now"`
	Cleanouts Cleanouts `json:"cleanouts"`
	// Spots are places for one more spot that do better, of so many Places tried
	// in the site's stand areas.
	Spots  []Spot `json:"spots,omitzero"`
	Places int    `json:"places"`
	Rigs   []Row  `json:"rigs,omitzero"`
	// Best is the index of the best of the rigs, -1 without any.
	Best  int   `json:"best_rig"`
	Rules []Row `json:"rules"`
}

// On makes the report on a site, with the rigs to compare. progress, where set,
// is told of every comparison before it is made. It fails where the site cannot
// be planned, and with the context's error where that is cancelled: what was
// found by then is not the best there is.
func On(ctx context.Context, s *site.Site, t *site.Tables, rigs []rig.Rig, progress func(Progress)) (*Report, error) {
	c, err := compare(ctx, s, t, rigs, progress)
	if err != nil {
		return nil, err
	}
	r := &Report{Best: -1, Places: len(c.places)}
	for _, part := range []func() error{
		func() (err error) { c.now.Doubts, err = doubts(c.site, t, c.now.Plan); return err },
		func() (err error) { r.Cleanouts, err = c.cleanouts(ctx); return err },
		func() (err error) { r.Spots, err = c.spots(ctx); return err },
		func() (err error) { r.Rigs, r.Best, err = c.rigRows(ctx); return err },
		func() (err error) { r.Rules, err = c.rules(ctx); return err },
	} {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if err := part(); err != nil {
			return nil, err
		}
	}
	r.Now = c.now
	return r, ctx.Err()
}
