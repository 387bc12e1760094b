package export

import (
	"strings"

	"linemap/internal/route"
	"linemap/internal/site"
)

// areasToDo says what is to be kept clear, and where people meet a hose on their
// way and when.
func (w *wording) areasToDo(p *route.Plan, days int) []fact {
	var clear, across []string
	for i := range w.site.Areas {
		a := &w.site.Areas[i]
		if a.Kind == site.KeepClear {
			clear = append(clear, OneLine(a.Name()))
		}
		if a.Kind == site.Stand {
			continue
		}
		if at := w.crossedWindows(p, a); len(at) > 0 {
			across = append(across, OneLine(a.Name())+": "+spoken(w.sayWindows(join(at), days)))
		}
	}
	var do []fact
	if len(clear) > 0 {
		do = append(do, fact{"Keep clear", sentences(strings.Join(clear, ", "), "Nothing may stand there at any time")})
	}
	if len(across) > 0 {
		do = append(do, fact{"Mind the hose", sentences(append([]string{"It lies across your way"}, across...)...)})
	}
	return do
}

// crossedWindows are the times in which a hose lies across an area: from the
// first event of a run whose hose does to its last and, where the supply hose
// does, as long as the trailer stands there.
func (w *wording) crossedWindows(p *route.Plan, a *site.Area) []window {
	whole, _ := runWindows(p)
	_, stays := spotWindows(p)
	var all []window
	told := map[site.SpotID]bool{}
	for i := range p.Blocks {
		b := &p.Blocks[i]
		for k := range b.Runs {
			if at, ok := whole[b.Runs[k].Number]; ok && w.runCrosses(b.Spot, b.Runs[k].Access, a) {
				all = append(all, at)
			}
		}
		if !told[b.Spot] && w.supplyCrosses(b.Spot, a) {
			told[b.Spot] = true
			all = append(all, stays[b.Spot]...)
		}
	}
	return all
}
