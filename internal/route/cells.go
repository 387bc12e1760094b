package route

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

// cellShare is where a cell at a target has its share of a thing.
type cellShare struct {
	target int32
	at     *int32
}

// addThings finds out what each cell shares, and numbers the shares by thing and
// target. Share 0 is of nothing.
func (p *problem) addThings(first []int32) {
	list, things := p.cellShares(first)
	p.things = make([]thing, p.hoseAt(len(p.keys)))
	n, last := int32(1), int32(-1)
	for _, i := range byNumber(things, len(p.things)) {
		s, t := list[i], &p.things[things[i]]
		if t.to == 0 {
			t.bounds, last = bounds{n, n}, -1
		}
		if s.target != last {
			t.to++
			n++
		}
		*s.at, last = n-1, s.target
	}
	p.shares = int(n)
	for a := range p.access {
		for k, key := range p.keys {
			p.things[p.openingOfKey(a, k)].price = p.openCost(a, key.spot)
		}
	}
}

// cellShares lists where the cells have their shares, lower targets first, and of
// which thing each is.
func (p *problem) cellShares(first []int32) (list []cellShare, things []int32) {
	targets := make([]int32, len(p.places))
	for i := range p.places {
		if targets[i] = -1; first[i] > 0 {
			targets[i] = p.cells[first[i]].target
		}
	}
	list, things = make([]cellShare, 0, 3*len(p.cells)), make([]int32, 0, 3*len(p.cells))
	for _, i := range byNumber(targets, len(p.targets)) {
		pl := &p.places[i]
		for bit, n := range p.access[pl.access].near {
			key := p.keyIndex(blockKey{n.spot, pl.hose})
			if pl.set&(1<<bit) == 0 || key < 0 {
				continue
			}
			c := &p.cells[int(first[i])+bit]
			list = append(list, cellShare{c.target, &c.opening}, cellShare{c.target, &c.stay}, cellShare{c.target, &c.hosePay})
			things = append(things,
				int32(p.openingOfKey(pl.access, int(key))), int32(p.stayAt(n.spot)), int32(p.hoseAt(int(key))))
		}
	}
	return list, things
}

// byNumber lists the places in of by the number there, those with one number in
// order, and leaves out negative ones; there are so many numbers.
func byNumber(of []int32, numbers int) []int32 {
	next := make([]int32, numbers+1)
	for _, n := range of {
		if n >= 0 {
			next[n+1]++
		}
	}
	for n := range numbers {
		next[n+1] += next[n]
	}
	out := make([]int32, next[numbers])
	for i, n := range of {
		if n >= 0 {
			out[next[n]] = int32(i)
			next[n]++
		}
	}
	return out
}
