package linestrip

import (
	"linemap/internal/export/drawing"
	"linemap/internal/unit"
)

// Sample is a sign of the strips with what it means. It is drawn from Left to
// Right millimetres across, [KeyHeight] high.
type Sample struct {
	Name        string
	Left, Right float64
	List        drawing.List
}

// KeyHeight is the height of the samples of a key in millimetres.
const KeyHeight = 7.0

// keyLift lets the rails of a key use its whole height.
const keyLift = 1.7

// Key lists what strips show; mark is the distance of the hose's warning mark
// from the nozzle, reach that of fixtures that may blow back.
func Key(mark, reach string) []Sample {
	const middle = unit.Length(0.5)
	pipe := Pipe{To: 1, Pen: drawing.Pen{Width: 0.9}}
	clean, dirty, roots := pipe, pipe, pipe
	clean.Cleaned, dirty.Cleaned, roots.Cleaned = true, true, true
	dirty.Hatch, roots.Hatch = Hatch{Every: 1.2}, Hatch{Every: 1.8, Cross: true}
	rail := []struct {
		name string
		wide bool // as far as the fixtures
		draw func(*strip)
	}{
		{"hose lay", false, func(d *strip) { d.stroke(layPen, RailX, d.Y(0), RailX, d.Y(1)) }},
		{"opening", false, func(d *strip) { d.mark(Stop{Kind: Opening, At: middle}) }},
		{"pipe passed, as on the map", false, func(d *strip) { d.pipe(&pipe) }},
		{"pipe to clean", false, func(d *strip) { d.pipe(&clean) }},
		{"deposit, the worse the closer", false, func(d *strip) { d.pipe(&dirty) }},
		{"roots", false, func(d *strip) { d.pipe(&roots) }},
		{"fitting to feel", false, func(d *strip) { d.pipe(&pipe); d.mark(Stop{Kind: Fitting, At: middle}) }},
		{"confirm with a locator", false, func(d *strip) { d.pipe(&pipe); d.mark(Stop{Kind: Confirm, At: middle}) }},
		{"next pipe", false, func(d *strip) { d.pipe(&pipe); d.mark(Stop{Kind: Joint, At: middle}) }},
		{mark + " mark out: stop", false, func(d *strip) { d.pipe(&pipe); d.mark(Stop{Kind: StopMark, At: middle}) }},
		{"far end", false, func(d *strip) { d.mark(Stop{Kind: FarEnd, At: middle}) }},
		{"may blow back: fixture within " + reach, true, func(d *strip) { d.pipe(&pipe); d.near(middle) }},
		{"take care", true, func(d *strip) { d.pipe(&pipe); d.warn(middle) }},
	}
	all := make([]Sample, 0, len(rail)+3)
	for _, r := range rail {
		d := &strip{Line: &Line{End: 1, Far: true}}
		d.Scale = d.Line.Scale(KeyHeight + 2*keyLift)
		d.lift = keyLift
		r.draw(d)
		left := RailX - bandReach - 0.6
		if r.wide {
			left = sideX - 1
		}
		all = append(all, Sample{r.name, left, RailX + bandReach + 0.6, d.list})
	}
	for _, s := range []struct {
		name string
		move Move
		turn unit.Angle
	}{
		{"turn, ahead is up", ToLeft, unit.Degrees(45)},
		{"up a stack, from the side", Up, unit.Degrees(90)},
		{"out of the riser", Enter, unit.Degrees(90)},
		{"size changes", Narrow, 0},
	} {
		var l drawing.List
		l.Add(drawing.Base, Sign(s.move, s.turn, SignSize/2, KeyHeight/2)...)
		all = append(all, Sample{s.name, 0, SignSize, l})
	}
	return all
}
