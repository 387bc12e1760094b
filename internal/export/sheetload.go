package export

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"linemap/internal/route"
	"linemap/internal/unit"
)

// hoses lists the hoses to load, in the order of the rig.
func (w *wording) hoses(p *route.Plan) []load {
	uses := map[string][]int{}
	for _, b := range p.Blocks {
		for i := range b.Runs {
			uses[b.Hose] = append(uses[b.Hose], b.Runs[i].Number)
		}
	}
	var loads []load
	for i := range w.site.Rig.Hoses {
		h := &w.site.Rig.Hoses[i]
		if len(uses[h.ID]) > 0 {
			what := fmt.Sprintf("%s long, up to %s, pipe %s", w.sys.Length(h.Length), w.sys.Pressure(h.Working),
				w.sizes(h.MinPipe, h.MaxPipe))
			loads = append(loads, load{w.hoseName(h.ID), what, numbers(uses[h.ID])})
		}
	}
	return loads
}

// nozzles lists the nozzles to load, in the order of the rig.
func (w *wording) nozzles(p *route.Plan) []load {
	uses := map[string][]int{}
	for _, b := range p.Blocks {
		for i := range b.Runs {
			for _, pass := range b.Runs[i].Passes {
				uses[pass.Nozzle] = append(uses[pass.Nozzle], b.Runs[i].Number)
			}
		}
	}
	var loads []load
	for i := range w.site.Rig.Nozzles {
		n := &w.site.Rig.Nozzles[i]
		if len(uses[n.ID]) > 0 {
			what := list(purposes(n), "pipe "+w.sizes(n.MinPipe, n.MaxPipe))
			loads = append(loads, load{w.nozzleName(n.ID), what, numbers(uses[n.ID])})
		}
	}
	return loads
}

// sizes writes a range of pipe sizes: "3 to 8 in", "DN 80 to 200".
func (w *wording) sizes(least, most unit.Size) string {
	from, to := least.In(w.sys), most.In(w.sys)
	if rest, ok := strings.CutPrefix(to, "DN "); ok && strings.HasPrefix(from, "DN ") {
		return from + " to " + rest
	}
	if rest, ok := strings.CutSuffix(from, " in"); ok && strings.HasSuffix(to, " in") {
		return rest + " to " + to
	}
	return from + " to " + to
}

// numbers lists ascending run numbers, three or more in a row as a span: "1 to
// 4, 7, 9". What is too scattered to be read is counted: "31 runs from 2 to 79".
func numbers(ns []int) string {
	ns = slices.Compact(slices.Sorted(slices.Values(ns)))
	var parts []string
	for i := 0; i < len(ns); {
		j := i
		for j+1 < len(ns) && ns[j+1] == ns[j]+1 {
			j++
		}
		if j-i >= 2 {
			parts = append(parts, fmt.Sprintf("%d to %d", ns[i], ns[j]))
		} else {
			for _, n := range ns[i : j+1] {
				parts = append(parts, strconv.Itoa(n))
			}
		}
		i = j + 1
	}
	if len(parts) > mostSpans {
		return fmt.Sprintf("%d runs from %d to %d", len(ns), ns[0], ns[len(ns)-1])
	}
	return list(parts...)
}

// mostSpans is how many spans of numbers are still read at a glance.
const mostSpans = 8
