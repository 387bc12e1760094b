package advice

import (
	"cmp"
	"context"
	"slices"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// Cleanouts is a set of new cleanouts that lets runs reach all that a new
// cleanout can: the fewest, and of as many the cheapest. Each place is judged by
// what it reaches by itself, and whole pipes are counted. (A cleanout parts a pipe,
// and where the whole asks for more water than the tank holds, a part may not.)
type Cleanouts struct {
	// Set is in the order of what each gains by itself, the most first.
	Set []route.Cleanout `json:"set"`
	// Price is that of the set in the prices by which cures are compared.
	Price float64 `json:"price"`
	// Least is a number that no such set goes below. Exact says that no such set
	// has fewer, and none with as many is cheaper.
	Least int  `json:"least"`
	Exact bool `json:"exact"`
	// Beyond are the pipes that no one new cleanout reaches.
	Beyond       []network.PipeID `json:"beyond,omitzero"`
	BeyondLength unit.Length      `json:"beyond_length,omitzero"`
	// With is the plan with the set put in.
	With Row `json:"with"`
}

// cleanouts finds the fewest and cheapest new cleanouts that reach all pipe that
// cleanouts can, and plans the site with them.
func (c *comparison) cleanouts(ctx context.Context) (Cleanouts, error) {
	all, err := route.Cleanouts(c.site, c.tables)
	if err != nil {
		return Cleanouts{}, err
	}
	var out Cleanouts
	with, refused := c.site, network.PipeID("")
	for again := true; again; again = refused != "" {
		// A place that the sketch has no room for is none.
		all = slices.DeleteFunc(all, func(o route.Cleanout) bool { return o.Pipe == refused })
		out = choose(all)
		with, refused = c.putIn(out.Set)
	}
	reached := map[network.PipeID]bool{}
	for _, o := range out.Set {
		for _, id := range o.Reaches {
			reached[id] = true
		}
	}
	for i := range c.now.Plan.Shortfalls {
		if f := &c.now.Plan.Shortfalls[i]; !reached[f.Pipe] {
			out.Beyond, out.BeyondLength = append(out.Beyond, f.Pipe), out.BeyondLength+f.Length
		}
	}
	what := unit.Count(len(out.Set), "new cleanout")
	if len(out.Set) == 0 {
		c.tell(what)
		out.With = rowOf(what, c.now, c.now)
		return out, nil
	}
	out.With, err = c.with(ctx, what, with, c.tables)
	return out, err
}

// choose chooses among places for cleanouts.
func choose(all []route.Cleanout) Cleanouts {
	var places cover
	for i := range all {
		places.add(all[i].Reaches, all[i].Price)
	}
	chosen := places.choose()
	out := Cleanouts{Least: chosen.least.count, Exact: chosen.exact}
	for _, i := range chosen.sets {
		out.Set, out.Price = append(out.Set, all[i]), out.Price+all[i].Price
	}
	slices.SortStableFunc(out.Set, func(a, b route.Cleanout) int { return cmp.Compare(b.Gains, a.Gains) })
	return out
}

// putIn is a copy of the site with new cleanouts, and the pipe of the first that
// cannot be put in, "" where all can.
func (c *comparison) putIn(set []route.Cleanout) (*site.Site, network.PipeID) {
	with := c.site.Clone()
	for i := range set {
		e, err := edit.AddCleanout(with, set[i].Pipe, set[i].At)
		if err != nil {
			return nil, set[i].Pipe
		}
		e.Do(with)
	}
	return with, ""
}
