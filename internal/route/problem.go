package route

// problem is a catalogue laid out flat for the search: no pointers to follow
// and no sets to ask, so that one pass over it takes microseconds. Targets go by
// their place in catalogue.targets, lower ones first.
type problem struct {
	*catalogue
	index []int32 // by pipe, the place of a target; -1 for none
	up    []int32 // the target below, -1 for none
	kids  [][]int32
	// keys are the blocks that some run can use, in order of spot and hose.
	keys  []blockKey
	keyAt []int32 // by spot and hose, the place in keys; -1 for none
	spans []span
	// spansOf[p] are the spans whose lowest target is p, each after its prev.
	spansOf []bounds
	cells   []cell
	things  []thing
	shares  int      // how many things share out over targets, summed
	all     []choice // every choice, by low target and span
	credit  []ticks  // what a stay has paid for water in advance, by spot; nil in the dry
}

// newProblem lays a catalogue out.
func newProblem(c *catalogue) *problem {
	p := &problem{catalogue: c}
	p.index = make([]int32, len(c.pipes))
	for i := range p.index {
		p.index[i] = -1
	}
	for i, t := range c.targets {
		p.index[t] = int32(i)
	}
	p.kids, p.up = make([][]int32, len(c.targets)), make([]int32, len(c.targets))
	for i, t := range c.targets {
		if p.up[i] = -1; c.parent[t] >= 0 {
			p.up[i] = p.index[c.parent[t]]
		}
		for _, q := range c.children[t] {
			p.kids[i] = append(p.kids[i], p.index[q])
		}
	}
	p.numberKeys()
	usable := p.usable()
	spanOf := p.addSpans(usable)
	p.addChoices(usable, spanOf, p.addCells(usable))
	return p
}

// keys lists every spot and hose that some run can use, in order.
func (c *catalogue) keys() (out []blockKey) {
	hoses := len(c.site.Rig.Hoses)
	used := make([]bool, len(c.spots)*hoses)
	for i := range c.columns {
		col := &c.columns[i]
		end := &c.places[col.end]
		for bit, n := range c.access[end.access].near {
			if col.spots&(1<<bit) != 0 {
				used[n.spot*hoses+end.hose] = true
			}
		}
	}
	for i, is := range used {
		if is {
			out = append(out, blockKey{i / hoses, i % hoses})
		}
	}
	return out
}

// numberKeys finds the keys and numbers them.
func (p *problem) numberKeys() {
	p.keys = p.catalogue.keys()
	p.keyAt = make([]int32, len(p.spots)*len(p.site.Rig.Hoses))
	for i := range p.keyAt {
		p.keyAt[i] = -1
	}
	for i, b := range p.keys {
		p.keyAt[b.spot*len(p.site.Rig.Hoses)+b.hose] = int32(i)
	}
}

func (p *problem) keyIndex(b blockKey) int32 { return p.keyAt[b.spot*len(p.site.Rig.Hoses)+b.hose] }
