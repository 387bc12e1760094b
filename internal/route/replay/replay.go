// Package replay plays a plan back: it tells for any time of the day what the
// crew does, where the nozzle is and what the gauges show.
//
// A plan says how long each pass takes and how far it goes; the nozzle's way
// within a pass follows from the same figures. It works out in strokes where the
// deposit asks for them, else travels out, and comes back stretch by stretch:
// pipes next to each other that ask for as many pulls are one stretch, pulled
// that often before the next one. The planner rounds times to its tick pipe by
// pipe; so the phases of a pass are stretched, all by the same share, until they
// fill its event exactly.
package replay

import (
	"sort"
	"time"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Replay is a plan made ready for playing. It is read-only, so it is safe to
// use from any goroutine.
type Replay struct {
	site   *site.Site
	plan   *route.Plan
	water  rig.Water
	tank   *Tank
	runs   map[int]*way
	events []scene
}

// scene is what is known of an event beforehand.
type scene struct {
	words string
	way   *way        // of the event's run, nil for none
	pass  *route.Pass // nil for none
	phase []phase     // of a jet event
}

// Moment is how things stand at one time of the day.
type Moment struct {
	// Event indexes the plan's day, -1 for a day without events. Block, Run and
	// Pass are as in [route.Event]. Words say what is done: "jetting run 4, clean
	// pass: pulling back, 2 of 3".
	Event            int
	Kind             route.EventKind
	Motion           Motion
	Words            string
	Block, Run, Pass int

	// Reading is what the hose counter shows, 0 where no hose lies in the drain.
	// The nozzle stands Along a Pipe from the end where it came in, At a place of
	// the plan, on a Level; Pipe is empty where it is in none.
	Reading unit.Length
	Pipe    network.PipeID
	Along   unit.Length
	At      network.Point
	Level   string
	// Bends is what the way to the nozzle spends, in quarter-bend equivalents.
	Bends float64

	// Pressure is that at the nozzle, 0 with the pump off.
	Pressure unit.Pressure
	// Drag is what the nozzle pulls while it goes out, and Pull the largest
	// tension in the hose while it comes back, which is that at the reel unless
	// the hose slides back by itself. Both are those of the low case: the heavy
	// hose on the rough wall, by which runs are planned. Else they are 0.
	Drag, Pull unit.Force

	// Tank is the tank's content.
	Tank unit.Volume

	// Hose is the way of the hose in the drain on the plan, from the access to
	// the nozzle, and Lay its way over the ground, from the spot to the access;
	// nil where there is none.
	Hose, Lay []network.Point
}

// New prepares a plan for playing. The graph is that of the site's network. What
// the plan names and the site does not have is left out.
func New(s *site.Site, t *site.Tables, g *network.Graph, p *route.Plan) *Replay {
	r := &Replay{site: s, plan: p, water: rig.WaterAt(s.Rig.Water), tank: NewTank(s, p), runs: map[int]*way{}}
	l := newLines(s, t, g)
	for b := range p.Blocks {
		block := &p.Blocks[b]
		for i := range block.Runs {
			r.runs[block.Runs[i].Number] = l.way(&block.Runs[i], spotOf(s, block), hoseOf(s, block))
		}
	}
	for i := range p.Day {
		e := &p.Day[i]
		sc := scene{words: Say(s, p, i), way: r.runs[e.Run], pass: passOf(p, e)}
		if e.Kind == route.EventJet && sc.pass != nil {
			sc.phase = l.phases(sc.way.run, sc.pass, e.Takes)
		}
		r.events = append(r.events, sc)
	}
	return r
}

// Ends is the time at which the day is over.
func (r *Replay) Ends() time.Duration {
	if n := len(r.plan.Day); n > 0 {
		last := &r.plan.Day[n-1]
		return last.Start + last.Takes
	}
	return 0
}

// At tells how things stand at a time of the day, counted from its start. Times
// before the day and after it are those of its ends. Where one event ends and the
// next begins, the next has begun.
func (r *Replay) At(t time.Duration) Moment {
	day := r.plan.Day
	t = max(0, min(t, r.Ends()))
	i := sort.Search(len(day), func(i int) bool { return day[i].Start > t }) - 1
	if i < 0 {
		return Moment{Event: -1, Block: -1, Run: -1, Pass: -1}
	}
	e, sc := &day[i], &r.events[i]
	m := Moment{
		Event: i, Kind: e.Kind, Words: sc.words, Block: e.Block, Run: e.Run, Pass: e.Pass,
		Tank: r.tank.Within(i, t-e.Start),
	}
	if sc.way == nil {
		return m
	}
	if lies(e.Kind) {
		m.Lay = sc.way.lay
	}
	if inside(e.Kind) {
		r.place(&m, e, sc, t-e.Start)
	}
	return m
}

// inside tells whether the nozzle stands in the drain during an event of a run:
// not while its hose is still being laid, nor while the trailer fetches water.
func inside(k route.EventKind) bool {
	switch k {
	case route.EventStart, route.EventJet, route.EventNozzleChange, route.EventWait:
		return true
	}
	return false
}

// lies tells whether the hose lies on the ground.
func lies(k route.EventKind) bool { return k == route.EventOpen || inside(k) }

// place puts the nozzle where it is so long after an event of its run began.
func (r *Replay) place(m *Moment, e *route.Event, sc *scene, since time.Duration) {
	w := sc.way
	m.Reading = w.run.Entry
	if p, share, ok := phaseAt(sc.phase, since); ok {
		var back bool
		m.Reading, back = p.reading(share)
		m.Motion = p.motion
		m.Words += ": " + p.words()
		m.Pressure = sc.pass.Operating.Nozzle
		if back {
			m.Pull = w.pull(m.Reading, sc.pass.Thrust, r.water)
		} else {
			m.Drag = w.drag(m.Reading, r.water)
		}
	}
	m.Bends = w.bends(m.Reading)
	m.Pipe, m.Along, m.Level = w.in(m.Reading)
	m.Hose = w.line(m.Reading)
	if n := len(m.Hose); n > 0 {
		m.At = m.Hose[n-1]
	}
}
