package route

import (
	"cmp"
	"slices"
)

// cell is a target on the way of a hose from an access, as it lies at one spot.
// The shares of what the run needs there are summed along the way: prev is the
// cell of the target before it. Cell 0 is at no target.
type cell struct {
	prev, target  int32
	opening       int32 // the share of the opening, by key
	stay, hosePay int32 // of the spot, and of the hose at the spot
}

// thing is one thing that is paid once for any number of runs, and where its
// shares lie.
type thing struct {
	price ticks
	bounds
}

// addCells lays out what runs share, and returns the first cell by place, of
// which there is one for each spot near the access; 0 for none.
func (p *problem) addCells(usable []bool) []int32 {
	ends := make([]bool, len(p.places)) // a usable column goes to or through here
	for i := range p.columns {
		if usable[i] {
			ends[p.columns[i].end] = true
		}
	}
	for i := len(p.places) - 1; i >= 0; i-- {
		if prev := p.places[i].prev; ends[i] && prev >= 0 {
			ends[prev] = true
		}
	}
	p.cells = []cell{{}}
	first := make([]int32, len(p.places))
	before := make([]int32, len(p.places)) // first cell of the last target before
	for i := range p.places {
		pl := &p.places[i]
		if pl.prev >= 0 {
			if before[i] = first[pl.prev]; before[i] == 0 {
				before[i] = before[pl.prev]
			}
		}
		t := p.index[pl.pipe]
		if !ends[i] || t < 0 {
			continue
		}
		first[i] = int32(len(p.cells))
		for bit := range p.access[pl.access].near {
			c := cell{target: t}
			if before[i] > 0 {
				c.prev = before[i] + int32(bit)
			}
			p.cells = append(p.cells, c)
		}
	}
	p.addThings(first)
	return first
}

// The things are the openings by access and key, the spots, and the keys.
func (p *problem) openingOfKey(access, key int) int { return access*len(p.keys) + key }
func (p *problem) stayAt(spot int) int              { return len(p.access)*len(p.keys) + spot }
func (p *problem) hoseAt(key int) int               { return len(p.access)*len(p.keys) + len(p.spots) + key }

// addThings finds out what each cell shares, and numbers the shares. Share 0 is
// of nothing.
func (p *problem) addThings(first []int32) {
	type slot struct {
		thing, target int32
		at            *int32
	}
	var slots []slot
	for i := range p.places {
		if first[i] == 0 {
			continue
		}
		pl := &p.places[i]
		for bit, n := range p.access[pl.access].near {
			key := p.keyIndex(blockKey{n.spot, pl.hose})
			if pl.set&(1<<bit) == 0 || key < 0 {
				continue
			}
			c := &p.cells[int(first[i])+bit]
			slots = append(slots,
				slot{int32(p.openingOfKey(pl.access, int(key))), c.target, &c.opening},
				slot{int32(p.stayAt(n.spot)), c.target, &c.stay},
				slot{int32(p.hoseAt(int(key))), c.target, &c.hosePay})
		}
	}
	slices.SortFunc(slots, func(a, b slot) int {
		return cmp.Or(cmp.Compare(a.thing, b.thing), cmp.Compare(a.target, b.target))
	})
	p.things = make([]thing, p.hoseAt(len(p.keys)))
	n := int32(1)
	for i, s := range slots {
		t := &p.things[s.thing]
		if i == 0 || slots[i-1].thing != s.thing {
			t.bounds = bounds{n, n}
		}
		if t.from == t.to || slots[i-1].target != s.target {
			t.to++
			n++
		}
		*s.at = n - 1
	}
	p.shares = int(n)
	for a := range p.access {
		for k, key := range p.keys {
			p.things[p.openingOfKey(a, k)].price = p.timeAt(p.openCost(a, key.spot), key.spot)
		}
	}
}
