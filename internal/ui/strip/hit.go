package strip

import "time"

// place is what lies at a point of the strip.
type place struct {
	event int // -1 for none
	run   int // 0 for none
	time  time.Duration
	// ofTime says that a click there moves the marker: on the clock and the tank.
	ofTime bool
	// whole says that the run is meant, not the event.
	whole bool
}

// hit tells what lies at a point.
func (d *day) hit(s span, r rows, x, y float64) place {
	p := place{event: -1, time: max(0, min(s.time(x), d.ends))}
	if x < s.left || x > s.left+s.width || y < 0 || y >= r.words.y {
		return p
	}
	p.ofTime = r.clock.has(y) || y >= r.crew.bottom()
	if p.event = d.at(p.time); p.event < 0 {
		return p
	}
	if run := d.plan.Day[p.event].Run; run > 0 && !p.ofTime {
		p.run, p.whole = run, r.runs.has(y)
	}
	return p
}
