package chart

import (
	"cmp"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"linemap/internal/export/drawing"
	"linemap/internal/export/label"
)

// note is a label in the making. What makes its places and draws it may be
// called from any goroutine.
type note struct {
	layer  drawing.Layer
	places func() []label.Candidate
	draw   func(c label.Candidate) []drawing.Shape
	// optional labels are left out where they would cost more than drop; titles
	// choose before all others.
	optional, title bool
	drop            float64
	rank            int // the order in which the labels of a board choose
}

// item is the label as package label sees it.
func (n *note) item() label.Item {
	return label.Item{Candidates: n.places(), Optional: n.optional, Drop: n.drop}
}

// placeAll finds the labels' places of as many panels at a time as there are
// processors: most of the time of a large map goes into that. It returns how
// many labels were left out.
func placeAll(panels []*storeyDraft) int {
	var next, dropped atomic.Int64
	var w sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(panels)) {
		w.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(panels)); i = next.Add(1) - 1 {
				dropped.Add(int64(panels[i].place()))
			}
		})
	}
	w.Wait()
	return int(dropped.Load())
}

// place finds the labels' places and draws them. It returns how many were left
// out for want of room.
func (sd *storeyDraft) place() (dropped int) {
	slices.SortStableFunc(sd.notes, func(a, b note) int { return cmp.Compare(turn(a), turn(b)) })
	items := make([]label.Item, len(sd.notes))
	for i := range sd.notes {
		items[i] = sd.notes[i].item()
	}
	bounds := sd.box.Inset(0.8)
	if !sd.untitled {
		bounds.Y, bounds.H = bounds.Y+titleHeight-1, bounds.H-titleHeight+1
	}
	for i, k := range label.Place(items, sd.walls, bounds) {
		if k == label.Dropped {
			dropped++
			continue
		}
		sd.list.Add(sd.notes[i].layer, sd.notes[i].draw(items[i].Candidates[k])...)
	}
	sd.notes, sd.walls = nil, nil
	return dropped
}

// turn orders the labels of a paper map: titles, those that must stand, the
// others.
func turn(n note) int {
	switch {
	case n.title:
		return 0
	case n.optional:
		return 2
	}
	return 1
}

// drops are the prices above which the label of a rank of a board is left out
// rather than laid over what is drawn.
var drops = [...]float64{60, 60, 60, 60, 14, 14, 10, dropPipe}

// placeQuickly gives the labels of a board the first free places.
func (sd *storeyDraft) placeQuickly() {
	slices.SortStableFunc(sd.notes, func(a, b note) int { return cmp.Compare(a.rank, b.rank) })
	items := make([]label.Item, len(sd.notes))
	for i := range sd.notes {
		n := &sd.notes[i]
		n.optional, n.drop = true, drops[n.rank]
		items[i] = n.item()
	}
	for i, k := range label.Quick(items, sd.walls, sd.box) {
		if k != label.Dropped {
			sd.list.Add(sd.notes[i].layer, sd.notes[i].draw(items[i].Candidates[k])...)
		}
	}
}
