package route

// pool holds the choices that are still in play, all together and key by key.
type pool struct {
	stock
	keyed []stock // by key
}

// stock is some choices and the spans that they need, both by low target, and
// each span after its prev.
type stock struct {
	choices  []choice
	byLow    []bounds
	needed   []int32
	neededOf []bounds
	source   []int32 // of the choices of one key, their places in the pool
}

// newPool makes a pool of choices that are sorted by low target and span.
func (p *problem) newPool(choices []choice) *pool {
	o := &pool{keyed: make([]stock, len(p.keys))}
	o.stock = p.newStock(choices)
	count := make([]int, len(p.keys))
	for i := range choices {
		count[choices[i].key]++
	}
	all, source := make([]choice, len(choices)), make([]int32, len(choices))
	for k, n := range count {
		of := &o.keyed[k]
		of.choices, all = all[:0:n], all[n:]
		of.source, source = source[:0:n], source[n:]
	}
	for i := range choices {
		of := &o.keyed[choices[i].key]
		of.choices, of.source = append(of.choices, choices[i]), append(of.source, int32(i))
	}
	for k := range o.keyed {
		source := o.keyed[k].source
		o.keyed[k] = p.newStock(o.keyed[k].choices)
		o.keyed[k].source = source
	}
	return o
}

func (p *problem) newStock(choices []choice) stock {
	n := len(p.targets)
	o := stock{choices: choices, byLow: make([]bounds, n), neededOf: make([]bounds, n)}
	at := 0
	for low := range n {
		o.byLow[low].from = int32(at)
		o.neededOf[low].from = int32(len(o.needed))
		for ; at < len(choices) && int(choices[at].low) == low; at++ {
			o.need(p, choices[at].span, o.neededOf[low].from)
		}
		o.byLow[low].to, o.neededOf[low].to = int32(at), int32(len(o.needed))
	}
	return o
}

// need adds a span and those before it, where they are not there yet from a
// place on.
func (o *stock) need(p *problem, s, from int32) {
	for i := len(o.needed) - 1; i >= int(from); i-- {
		if o.needed[i] == s {
			return
		}
	}
	if prev := p.spans[s].prev; prev >= 0 {
		o.need(p, prev, from)
	}
	o.needed = append(o.needed, s)
}

// used are the keys that the pool still has choices for, as a bit mask.
func (o *pool) used() (mask uint64) {
	for k := range o.keyed {
		if len(o.keyed[k].choices) > 0 {
			mask |= 1 << k
		}
	}
	return mask
}
