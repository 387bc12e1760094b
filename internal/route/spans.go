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
	spanOf := make([]int32, len(p.columns))
	// Spans of one low target form a tree as the targets do, so that they are known
	// by their top: at has the span of each, -1 for none.
	at := slices.Repeat([]int32{-1}, len(p.targets))
	var tops []int32
	for low, pipe := range p.targets {
		first := int32(len(p.spans))
		tops = append(tops[:0], int32(low))
		at[low] = first
		for _, i := range p.byLow[pipe] {
			if !usable[i] {
				continue
			}
			top := p.topOf(i)
			spanOf[i] = top
			for ; at[top] < 0; top = p.up[top] {
				at[top] = first
				tops = append(tops, top)
			}
		}
		slices.Sort(tops) // lower targets come first
		for _, top := range tops {
			prev := int32(-1)
			if int(top) != low {
				prev = at[p.up[top]]
			}
			at[top] = int32(len(p.spans))
			p.spans = append(p.spans, span{int32(low), top, prev})
		}
		for _, i := range p.byLow[pipe] {
			if usable[i] {
				spanOf[i] = at[spanOf[i]]
			}
		}
		for _, top := range tops {
			at[top] = -1
		}
		p.spansOf = append(p.spansOf, bounds{first, int32(len(p.spans))})
	}
	return spanOf
}

// topOf is the highest target that a column cleans.
func (p *problem) topOf(column int) int32 {
	col := &p.columns[column]
	if p.places[col.end].down {
		for col.prev >= 0 {
			col = &p.columns[col.prev]
		}
	}
	return p.index[col.last]
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
