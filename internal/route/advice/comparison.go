package advice

import (
	"context"
	"fmt"

	"linemap/internal/rig"
	"linemap/internal/site"
)

// Progress tells how a report gets on.
type Progress struct {
	// Done of All comparisons are made; What is the one being made.
	Done, All int
	What      string
}

// comparison compares plans of one site with that of the site as it stands.
type comparison struct {
	site     *site.Site // without decisions made by hand
	tables   *site.Tables
	now      Outcome
	rigs     []rig.Rig
	places   []Spot   // to be tried
	changes  []change // to be made
	done     int
	progress func(Progress)
}

// compare plans the site as it stands. progress may be nil.
func compare(ctx context.Context, s *site.Site, t *site.Tables, rigs []rig.Rig, progress func(Progress)) (*comparison, error) {
	free := *s
	free.ByHand = site.ByHand{}
	c := &comparison{
		site: &free, tables: t, rigs: rigs, progress: progress,
		places: places(&free, min(max(spotWork/(len(s.Network.Pipes)+1), leastSpots), mostSpots)),
	}
	for _, change := range changes(s.Units) {
		with := s.Rig.Clone()
		if change.do(&with); !same(&with, &s.Rig) {
			c.changes = append(c.changes, change)
		}
	}
	var err error
	c.tell("the site as it stands")
	c.now, err = Weigh(ctx, c.site, t)
	return c, err
}

// tell says which comparison begins: the site as it stands is the first, and
// all the cleanouts together are one.
func (c *comparison) tell(what string) {
	if c.progress != nil {
		c.progress(Progress{Done: c.done, All: 2 + len(c.places) + len(c.rigs) + len(c.changes), What: what})
	}
	c.done++
}

// with plans a site that is other in one thing.
func (c *comparison) with(ctx context.Context, what string, s *site.Site, t *site.Tables) (Row, error) {
	c.tell(what)
	o, err := Weigh(ctx, s, t)
	if err != nil {
		return Row{}, fmt.Errorf("with %s: %w", what, err)
	}
	if err := ctx.Err(); err != nil {
		return Row{}, err
	}
	return rowOf(what, o, c.now), nil
}
