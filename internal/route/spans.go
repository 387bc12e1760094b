package route

import (
	"iter"
	"slices"
)

// bounds are a stretch of a list.
type bounds struct{ from, to int32 }

// span is a set of targets that one run cleans: all from a low one to a top one
// above it. prev is the span without the top; -1 for a single target.
type span struct{ low, top, prev int32 }

// addSpans finds the spans of all usable columns, and returns them by column.
func (p *problem) addSpans(usable []bool) []int32 {
	// Spans of one low target form a tree as the targets do, so that they are
	// known by their top.
	tops := make([]map[int32]bool, len(p.targets))
	ends := make([][2]int32, len(p.columns))
	for i := range p.columns {
		if !usable[i] {
			continue
		}
		col := &p.columns[i]
		low, top := p.index[col.low], p.index[col.last]
		if p.places[col.end].down {
			for j := i; j >= 0; j = p.columns[j].prev {
				top = p.index[p.columns[j].last]
			}
		}
		ends[i] = [2]int32{low, top}
		if tops[low] == nil {
			tops[low] = map[int32]bool{}
		}
		for t := top; t != low && !tops[low][t]; t = p.index[p.parent[p.targets[t]]] {
			tops[low][t] = true
		}
	}
	spanOf := make([]int32, len(p.columns))
	at := make([]map[int32]int32, len(p.targets))
	for low := range p.targets {
		first := int32(len(p.spans))
		p.spans = append(p.spans, span{int32(low), int32(low), -1})
		at[low] = map[int32]int32{int32(low): first}
		sorted := make([]int32, 0, len(tops[low]))
		for t := range tops[low] {
			sorted = append(sorted, t)
		}
		slices.Sort(sorted) // lower targets come first
		for _, t := range sorted {
			at[low][t] = int32(len(p.spans))
			p.spans = append(p.spans, span{int32(low), t, at[low][p.index[p.parent[p.targets[t]]]]})
		}
		p.spansOf = append(p.spansOf, bounds{first, int32(len(p.spans))})
	}
	for i := range p.columns {
		if usable[i] {
			spanOf[i] = at[ends[i][0]][ends[i][1]]
		}
	}
	return spanOf
}

// hanging are the targets that hang off those of a span.
func (p *problem) hanging(s int32) iter.Seq[int32] {
	return func(yield func(int32) bool) {
		for above := int32(-1); s >= 0; s = p.spans[s].prev {
			top := p.spans[s].top
			for _, q := range p.kids[top] {
				if q != above && !yield(q) {
					return
				}
			}
			above = top
		}
	}
}

// hangSpans finds what hangs in a block off the targets of the spans with a low
// target that some choices need. hang is by span, sum and f by target, each with
// width blocks.
func hangSpans[T ticks | float64](p *problem, of *stock, low, block, width int, hang, sum, f []T) {
	for _, s := range of.needed[of.neededOf[low].from:of.neededOf[low].to] {
		sp := &p.spans[s]
		top := int(sp.top)*width + block
		if sp.prev < 0 {
			hang[int(s)*width+block] = sum[top]
		} else {
			hang[int(s)*width+block] = hang[int(sp.prev)*width+block] - f[top] + sum[top]
		}
	}
}
