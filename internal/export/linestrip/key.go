package linestrip

import (
	"linemap/internal/export/drawing"
	"linemap/internal/unit"
)

// Sample is a sign of the strips with what it means, drawn Wide millimetres wide
// and [KeyHeight] high.
type Sample struct {
	Name string
	Wide float64
	List drawing.List
}

// KeyHeight is the height of the samples of a key in millimetres.
const KeyHeight = 7.0

// keyLift lets the rails of a key use its whole height.
const keyLift = 1.7

// Key lists what strips show; mark is the distance of the hose's warning mark
// from the nozzle.
func Key(mark string) []Sample {
	const middle = unit.Length(0.5)
	pipe := Pipe{To: 1, Pen: drawing.Pen{Width: 0.9}}
	clean, dirty, roots := pipe, pipe, pipe
	clean.Cleaned, dirty.Cleaned, roots.Cleaned = true, true, true
	dirty.Hatch, roots.Hatch = Hatch{Every: 1.2}, Hatch{Every: 1.8, Cross: true}
	rail := []struct {
		name string
		draw func(*strip)
	}{
		{"hose on the ground", func(d *strip) { d.stroke(layPen, RailX, d.Y(0), RailX, d.Y(1)) }},
		{"opening", func(d *strip) { d.mark(Stop{Kind: Opening, At: middle}) }},
		{"pipe passed (weight: size, pattern: material)", func(d *strip) { d.pipe(&pipe) }},
		{"pipe to clean", func(d *strip) { d.pipe(&clean) }},
		{"deposit, the worse the closer", func(d *strip) { d.pipe(&dirty) }},
		{"roots", func(d *strip) { d.pipe(&roots) }},
		{"fitting to feel", func(d *strip) { d.pipe(&pipe); d.mark(Stop{Kind: Fitting, At: middle}) }},
		{"branch to confirm with a locator", func(d *strip) { d.pipe(&pipe); d.mark(Stop{Kind: Confirm, At: middle}) }},
		{"next pipe", func(d *strip) { d.pipe(&pipe); d.mark(Stop{Kind: Joint, At: middle}) }},
		{mark + " mark out: stop", func(d *strip) { d.pipe(&pipe); d.mark(Stop{Kind: StopMark, At: middle}) }},
		{"far end", func(d *strip) { d.mark(Stop{Kind: FarEnd, At: middle}) }},
		{"fixture near, may blow back (way to it)", func(d *strip) { d.pipe(&pipe); d.near(middle) }},
		{"take care", func(d *strip) { d.pipe(&pipe); d.warn(middle) }},
	}
	all := make([]Sample, 0, len(rail)+3)
	for _, r := range rail {
		d := &strip{Line: &Line{End: 1, Far: true}}
		d.Scale = d.Line.Scale(KeyHeight + 2*keyLift)
		d.lift = keyLift
		r.draw(d)
		all = append(all, Sample{r.name, RailX + bandReach + 0.6, d.list})
	}
	for _, s := range []struct {
		name string
		move Move
		turn unit.Angle
	}{
		{"turn, ahead is up", ToLeft, unit.Degrees(45)},
		{"up a stack, seen from the side", Up, unit.Degrees(90)},
		{"out of the riser", Enter, unit.Degrees(90)},
		{"size changes", Narrow, 0},
	} {
		var l drawing.List
		l.Add(drawing.Base, Sign(s.move, s.turn, SignSize/2, KeyHeight/2)...)
		all = append(all, Sample{s.name, SignSize, l})
	}
	return all
}
