package route

import (
	"slices"

	"linemap/internal/unit"
)

// gain is what a trial makes reachable of the pipes that are missing.
type gain struct {
	reach  map[int]bool
	length unit.Length
}

// gainOf measures what a trial's candidates make reachable of the pipes that
// are missing, where all else that can be cleaned is. It takes candidates out
// of use.
func (c *catalogue) gainOf(missing []bool) gain {
	g := gain{reach: map[int]bool{}}
	for again := true; again; {
		clear(g.reach)
		for i := range c.columns {
			if c.columns[i].spots == 0 {
				continue
			}
			for j := i; j >= 0; j = c.columns[j].prev {
				if p := c.columns[j].last; !c.given[p] {
					g.reach[p] = true
				}
			}
		}
		again = c.cutAt(func(p int) bool { return c.pipes[p].target && !g.reach[p] && !c.given[p] })
	}
	var all []int
	for p := range g.reach {
		if missing[p] {
			all = append(all, p)
		}
	}
	slices.Sort(all) // so that the sum is the same every time
	for _, p := range all {
		g.length += c.pipes[p].length
	}
	return g
}

// gainFrom measures what one access of a trial adds to what is cleaned anyway.
func (e *explainer) gainFrom(t *model, access int) gain {
	c := &catalogue{model: t, given: e.reachable}
	c.walkFrom(access)
	return c.gainOf(e.missing)
}

// hoseBy is a hose made longer.
type hoseBy struct {
	hose int
	by   unit.Length
}

// hoseWork is how many places may be walked to see all that longer hoses gain
// on a site; beyond it only the access is looked at for which one is thought of.
const hoseWork = 200_000

// gainOfHose measures what a longer hose gains on the whole site, or through the
// attempt's access where the site is too large to look at it whole.
func (e *explainer) gainOfHose(t *attempt) gain {
	key := hoseBy{t.way.hose, t.over}
	g, known := e.longer[key]
	if known {
		return g
	}
	if e.work += len(e.places) + 1; e.work > hoseWork {
		return e.gainFrom(e.withHoseAt(t.way.access, t.way.hose, t.over), t.way.access)
	}
	c := newCatalogue(e.withHose(t.way.hose, t.over))
	g = gain{reach: map[int]bool{}}
	for p, yes := range e.missing {
		if yes && c.reachable[p] {
			g.reach[p] = true
			g.length += c.pipes[p].length
		}
	}
	e.longer[key] = g
	return g
}
