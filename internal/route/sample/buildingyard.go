package sample

import (
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Where the parts of the yard lie, in feet north of the front wall.
const (
	kerb     = -70
	property = -40
	grease   = -20 // where the kitchen's line comes in
	face     = -6
)

// sewerPipes counts the pipes of the sewer, without the kitchen's line.
func (b *building) sewerPipes(pipes int) int {
	n := 1
	if pipes >= 20 {
		n += 2 // two bends
	}
	if pipes >= 60 {
		n++ // a manhole
	}
	return n
}

// kitchenPipes counts what a kitchen takes: its line to the interceptor, and
// from there to the sewer.
func kitchenPipes(fixtures int) int {
	if fixtures == 0 {
		return 0
	}
	return 2*fixtures + 2 + 3
}

// drawAll draws the sewer, the trunk and, beside them, the kitchen.
func (b *building) drawAll(pipes int, trunk *line, kitchens int) {
	p := b.piping(network.BuildingSewer, b.sewerSize(), b.outside, network.Sediment)
	at := b.outlet("SEW", xy{4, kerb}, yard)
	b.deep(at, 7)
	if pipes >= 60 {
		at = b.up(at, p, access(network.Manhole, 24), "MH", xy{4, property})
	}
	x := 4.
	if pipes >= 20 { // an offset by two eighth bends
		at = b.up(at, p, bend(45), "B", xy{4, -32})
		at = b.up(at, p, bend(45), "B", xy{0, -28})
		x = 0
	}
	tapped := -1
	if kitchens > 0 {
		at = b.up(at, p, junction(network.Wye), "Y", xy{x, grease})
		tapped = at
	}
	at = b.up(at, p, access(network.TwoWayCleanout, p.Size), "CO", xy{x, face})
	trunk.pipe.Severity = p.Severity
	b.level(at, underSlab, func() { b.draw(trunk, at, xy{x, face}, xy{0, 1}) })
	if kitchens > 0 {
		b.kitchen(tapped, xy{x, grease}, kitchens, p)
	}
}

// level draws with the nodes above a node on another level.
func (b *building) level(node int, level string, draw func()) {
	own := b.net.Nodes[node].Level
	b.net.Nodes[node].Level = level
	draw()
	b.net.Nodes[node].Level = own
}

// kitchen draws a kitchen in the east of all else: its line runs to a grease
// interceptor, and another from there to the sewer.
func (b *building) kitchen(tapped int, at xy, fixtures int, sewer network.Pipe) {
	_, high := b.bounds()
	east := high.x + 45
	first := len(b.net.Pipes)
	sewer.Size, sewer.Deposit = 4, network.Grease
	corner := b.up(tapped, sewer, bend(90), "B", at.add(xy{1, 1}, 4), xy{east, at.y + 4})
	b.join(tapped, first)
	b.up(corner, sewer, access(network.Manhole, 24), "MH", xy{east, 0})

	l := b.serve(kitchen, fixtures)
	l.pipe.OutOfJob = false
	for i := range l.taps {
		l.taps[i].line.pipe.OutOfJob = false
	}
	l.end, l.series = cleanout(network.FacesDownstream, 4, true), "CO"
	interceptor := b.outlet("GI", xy{east, 8}, yard)
	b.deep(interceptor, 4)
	inlet := b.up(interceptor, l.pipe, access(network.TwoWayCleanout, 4), "CO", xy{east, 14})
	b.level(inlet, underSlab, func() { b.draw(l, inlet, xy{east, 14}, xy{-1, 0}) })
}

// bounds are the corners of the drain, in feet.
func (b *building) bounds() (low, high xy) {
	var all []network.Point
	for _, n := range b.net.Nodes {
		all = append(all, n.At)
	}
	l, h := network.Bounds(all)
	return xy{l.X.Feet(), l.Y.Feet()}, xy{h.X.Feet(), h.Y.Feet()}
}

// site puts spots and water points around the building.
func (b *building) site() *site.Site {
	low, high := b.bounds()
	s := &site.Site{
		Version: site.Version, Units: unit.US, Paper: site.Letter, Code: "ipc", Network: b.net, Rig: ThreeHoseRig(),
		Job: site.Job{Title: "Sample building", Customer: "Sample customer", Address: "1 Sample Street", Date: "2026-03-17", Start: "07:30"},
	}
	spots := []struct {
		label string
		at    xy
		from  int // pipes
	}{
		{"Street front", xy{-14, property - 14}, 0},
		{"Side alley", xy{high.x + 16, 4}, 15},
		{"Back yard", xy{6, high.y + 18}, 40},
		{"West yard", xy{low.x - 18, (high.y + grease) / 2}, 80},
		{"Front drive", xy{low.x / 2, grease - 2}, 120},
		{"Loading dock", xy{high.x + 16, high.y * 0.75}, 160},
	}
	for _, p := range spots {
		if len(b.net.Pipes) >= p.from {
			id := site.SpotID("t" + string(rune('1'+len(s.Spots))))
			s.Spots = append(s.Spots, site.Spot{ID: id, Label: p.label, At: p.at.point()})
		}
	}
	s.Water = []site.WaterPoint{{
		ID: "h1", Label: "HYD-1", Kind: site.Hydrant, At: xy{-30, kerb + 10}.point(), Flow: unit.GallonsPerMinute(25),
	}}
	if len(b.net.Pipes) >= 40 {
		s.Water = append(s.Water, site.WaterPoint{
			ID: "h2", Label: "BIB-1", Kind: site.HoseBib, At: xy{high.x - 20, high.y + 6}.point(), Flow: unit.GallonsPerMinute(6),
		})
	}
	return s
}
