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
	Spots     []Spot    `json:"spots,omitzero"`
	Rigs      []Row     `json:"rigs,omitzero"`
	// Best is the index of the best of the rigs, -1 without any.
	Best   int     `json:"best_rig"`
	Rules  []Row   `json:"rules"`
	Doubts []Doubt `json:"doubts,omitzero"`
}

// Parts is how many parts a report is made in.
const Parts = 6

// On makes the report on a site, with the rigs to compare. progress, where set,
// is told the part being made, counted from 0, and what it is. It fails where
// the site cannot be planned, and with the context's error where that is
// cancelled: what was found by then is not the best there is.
func On(ctx context.Context, s *site.Site, t *site.Tables, rigs []rig.Rig, progress func(part int, what string)) (*Report, error) {
	free := *s
	free.ByHand = site.ByHand{}
	r := &Report{Best: -1}
	steps := []struct {
		what string
		do   func() error
	}{
		{"the site as it stands", func() (err error) { r.Now, err = Weigh(ctx, &free, t); return err }},
		{"new cleanouts", func() (err error) { r.Cleanouts, err = Accesses(ctx, &free, t, r.Now); return err }},
		{"spots", func() (err error) { r.Spots, err = Spots(ctx, &free, t, r.Now); return err }},
		{"rigs", func() (err error) { r.Rigs, r.Best, err = Rigs(ctx, &free, t, r.Now, rigs); return err }},
		{"what each rule costs", func() (err error) { r.Rules, err = Rules(ctx, &free, t, r.Now); return err }},
		{"the pull", func() (err error) { r.Doubts, err = Doubts(ctx, &free, t, r.Now.Plan); return err }},
	}
	for i, step := range steps {
		if progress != nil {
			progress(i, step.what)
		}
		if err := step.do(); err != nil {
			return nil, err
		}
		if err := ctx.Err(); err != nil {
			return nil, err
		}
	}
	return r, nil
}
