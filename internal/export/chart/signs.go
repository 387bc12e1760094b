package chart

import (
	"linemap/internal/export/drawing"
	"linemap/internal/export/paper"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Signs draws the legend of everything that a map or a board can show, w
// millimetres wide and as high as it takes.
func Signs(sys unit.System, w float64) (*drawing.Sheet, error) {
	rule, err := paper.NewRuler()
	if err != nil {
		return nil, err
	}
	d := &draft{rule: rule, sys: sys, site: &site.Site{Units: sys}, seen: map[sample]bool{}}
	for kind := range sampleTile { // what only the tiles of a paper have comes after it
		d.seen[sample{kind: kind}] = true
	}
	for _, s := range unit.Sizes() {
		d.seen[sample{kind: sampleSize, size: s}] = true
	}
	for _, m := range []network.Material{network.PVC40, network.ABS40, network.CastIron, network.Clay, network.Concrete} {
		d.seen[sample{kind: sampleMaterial, material: m}] = true
	}
	for _, kind := range []network.AccessKind{
		network.OneWayCleanout, network.TwoWayCleanout, network.Manhole, network.PulledFixture, network.RoofVent, network.CatchBasin,
	} {
		d.seen[sample{kind: sampleAccess, access: kind}] = true
	}
	for _, kind := range []site.WaterKind{site.Hydrant, site.HoseBib, site.Tanker} {
		d.seen[sample{kind: sampleWater, water: kind}] = true
	}
	c := &side{draft: d, box: drawing.Box{X: 2, Y: 2, W: w - 4, H: 1000}, y: 2}
	c.legendTable(d.legend())
	return &drawing.Sheet{W: w, H: c.y + 2, Panels: []drawing.Panel{{List: c.list}}}, nil
}
