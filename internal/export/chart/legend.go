package chart

import (
	"math"
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// sample is a thing that the map shows and the legend explains.
type sample struct {
	kind     sampleKind
	size     unit.Size
	material network.Material
	access   network.AccessKind
	water    site.WaterKind
	underlay site.UnderlayID
}

type sampleKind int

// The kinds of sample.
const (
	sampleSize sampleKind = iota
	sampleMaterial
	sampleOutside
	sampleFlow
	sampleRun
	sampleDownstream
	sampleRibbon
	sampleShortfall
	sampleUsed
	sampleAccess
	sampleFacing
	sampleClosed
	sampleStack
	sampleFixture
	sampleTrap
	sampleValve
	sampleReducer
	sampleCap
	sampleOutlet
	sampleSpot
	sampleSpareSpot
	sampleLay
	sampleUpstairs
	sampleWater
	sampleSupply
	sampleStand
	sampleKeepClear
	sampleWalkway
	sampleCone
	sampleNote
	sampleMissing
	sampleTile
	sampleEdge
)

// entry is one line of the legend: what it says, and the shapes of its sample
// about the middle of a box of sampleWidth by legendRow, in millimetres.
type entry struct {
	say    string
	shapes func(x, y float64) []drawing.Shape
}

const (
	sampleWidth = 9.0
	legendRow   = 4.7
)

// legend lists an entry for everything that the map shows, in a fixed order.
func (d *draft) legend() []entry {
	var all []entry
	add := func(kind sampleKind, say string, shapes func(x, y float64) []drawing.Shape) {
		if d.seen[sample{kind: kind}] {
			all = append(all, entry{say, shapes})
		}
	}
	all = append(all, d.pipeEntries()...)
	add(sampleFlow, "way the water flows", func(x, y float64) []drawing.Shape {
		return append(pipeSample(x, y, drawing.Pen{Width: 0.65}),
			symbolAt(x, y, drawing.Pointer, 2.2, drawing.Pen{Width: 0.3, Ink: drawing.White}, ink(drawing.Black)))
	})
	add(sampleRun, d.words().run, func(x, y float64) []drawing.Shape {
		return append(ribbonSample(x, y), badgeSample(x-1, y, drawing.Disc, "1", 0, drawing.Black, drawing.White)...)
	})
	add(sampleDownstream, "run with the flow (downstream)", func(x, y float64) []drawing.Shape {
		return append(ribbonSample(x, y), badgeSample(x-1, y, drawing.Square, "2", 0, drawing.Black, drawing.White)...)
	})
	add(sampleRibbon, d.words().ribbon, ribbonSample)
	add(sampleShortfall, "not cleaned; see the table", func(x, y float64) []drawing.Shape {
		s := pipeSample(x, y, drawing.Pen{Width: 0.65})
		s = append(s, drawing.Ticks{Points: ends2(x, y), Every: 3, Reach: 1, Cross: true, Pen: crossPen})
		return append(s, badgeSample(x, y, drawing.Square, "A", 0, drawing.White, drawing.Black)...)
	})
	all = append(all, d.openingEntries()...)
	add(sampleStack, "stack, seen from above", func(x, y float64) []drawing.Shape {
		return []drawing.Shape{
			symbolAt(x, y, drawing.Disc, stackSize, ringPen, ink(drawing.White)),
			symbolAt(x, y, drawing.Disc, stackSize*0.4, drawing.Pen{}, ink(drawing.Black)),
		}
	})
	add(sampleFixture, "fixture", one(drawing.Square, fixtureSize, thinPen, drawing.White))
	add(sampleTrap, "trap", one(drawing.Cup, 1.8, ringPen, drawing.White))
	add(sampleValve, "backwater valve (BWV)", one(drawing.Flap, 2.6, thinPen, drawing.White))
	add(sampleReducer, "change of pipe size", one(drawing.Diamond, 1.6, thinPen, drawing.White))
	add(sampleCap, "capped end", one(drawing.Bar, 2.4, ringPen, drawing.White))
	add(sampleOutlet, "outlet: the drain leaves here", one(drawing.Wedge, outletSize, drawing.Pen{}, drawing.Black))
	add(sampleSpot, "trailer stands here", one(drawing.Plate, spotSize, thinPen, drawing.Black))
	add(sampleSpareSpot, "spot not used", one(drawing.Plate, spotSize, thinPen, drawing.White))
	add(sampleLay, "jet hose on the ground", lineSample(layPen))
	add(sampleUpstairs, "hose goes on to another level", one(drawing.Diamond, 1.8, thinPen, drawing.White))
	all = append(all, d.waterEntries()...)
	add(sampleSupply, "supply hose to the tank", lineSample(supplyPen))
	all = append(all, d.areaEntries()...)
	add(sampleNote, "note", one(noteSign, noteSize, thinPen, noteInk))
	all = append(all, d.missingEntries()...)
	add(sampleTile, "shown in detail on its own sheet", lineSample(tilePen))
	add(sampleEdge, "edge of the next sheet", lineSample(tilePen))
	return all
}

// pipeEntries explain line weights and patterns.
func (d *draft) pipeEntries() []entry {
	var all []entry
	for i, row := range weights {
		var sizes []string
		for _, s := range unit.Sizes() {
			if weight(s) == row.width && d.seen[sample{kind: sampleSize, size: s}] {
				sizes = append(sizes, s.In(d.sys))
			}
		}
		if len(sizes) > 0 {
			say := strings.Join(sizes, ", ")
			if i == len(weights)-1 || len(sizes) > 1 && d.sys != unit.Metric {
				say = strings.ReplaceAll(say, " in, ", ", ")
			}
			all = append(all, entry{say + " pipe", lineSample(drawing.Pen{Width: row.width})})
		}
	}
	for _, m := range []network.Material{network.PVC40, network.ABS40, network.CastIron, network.Clay, network.Concrete} {
		if d.seen[sample{kind: sampleMaterial, material: m}] {
			code := materialLetters(m)
			all = append(all, entry{code + "  " + letters[code], lineSample(drawing.Pen{Width: 0.65, Dash: dash(m)})})
		}
	}
	if d.seen[sample{kind: sampleOutside}] {
		all = append(all, entry{"not in this job", lineSample(drawing.Pen{Width: 0.65, Ink: drawing.Pale})})
	}
	return all
}

// openingEntries explain the openings and their letters.
func (d *draft) openingEntries() []entry {
	var all []entry
	done := map[string]bool{}
	for _, kind := range []network.AccessKind{
		network.OneWayCleanout, network.TwoWayCleanout, network.Manhole,
		network.CatchBasin, network.RoofVent, network.PulledFixture,
	} {
		code := kind.Letters()
		if !d.seen[sample{kind: sampleAccess, access: kind}] || done[code] {
			continue
		}
		done[code] = true
		sym, size := accessLook(kind)
		all = append(all, entry{code + "  " + letters[code], one(sym, size, thinPen, drawing.White)})
	}
	if d.seen[sample{kind: sampleFacing}] {
		all = append(all, entry{"one-way: a hose can go this way only", func(x, y float64) []drawing.Shape {
			return []drawing.Shape{
				symbolAt(x+accessSize/2, y, drawing.Wedge, wedgeSize, drawing.Pen{}, ink(drawing.Black)),
				symbolAt(x, y, drawing.Disc, accessSize, thinPen, ink(drawing.White)),
			}
		}})
	}
	if d.seen[sample{kind: sampleUsed}] {
		all = append(all, entry{"bold: opened for this job", one(drawing.Disc, accessSize, usedPen, drawing.White)})
	}
	if d.seen[sample{kind: sampleClosed}] {
		all = append(all, entry{"not in service", func(x, y float64) []drawing.Shape {
			return []drawing.Shape{
				symbolAt(x, y, drawing.Disc, accessSize, thinPen, ink(drawing.White)),
				symbolAt(x, y, drawing.Saltire, accessSize+1, thinPen, nil),
			}
		}})
	}
	return all
}

// waterEntries explain the water points and their letters.
func (d *draft) waterEntries() []entry {
	var all []entry
	for _, kind := range []site.WaterKind{site.Hydrant, site.HoseBib, site.Tanker} {
		if d.seen[sample{kind: sampleWater, water: kind}] {
			code := kind.Letters()
			all = append(all, entry{code + "  " + letters[code], one(drawing.Diamond, waterSize, thinPen, drawing.Black)})
		}
	}
	return all
}

// legendColumns splits entries into columns as even as they get, read downward.
func legendColumns(all []entry, columns int) [][]entry {
	per := int(math.Ceil(float64(len(all)) / float64(columns)))
	var out [][]entry
	for per > 0 && len(all) > 0 {
		n := min(per, len(all))
		out, all = append(out, all[:n]), all[n:]
	}
	return out
}
