package replay

import (
	"math"
	"slices"
	"sort"
	"time"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// Motion is what the nozzle does.
type Motion string

// The motions; the empty one stands still.
const (
	Stroking  Motion = "stroking"  // out, a stroke forward and half of it back
	GoingOut  Motion = "going_out" // out over pipe that is not worked in strokes
	Pulling   Motion = "pulling"   // back, at the pace of the deposit
	Returning Motion = "returning" // out again for the next pull
	ComingIn  Motion = "coming_in" // back over pipe that is not worked
)

// phase is a stretch of a pass with one motion at an even pace.
type phase struct {
	motion   Motion
	from, to unit.Length // readings
	begins   float64     // seconds after the pass began
	takes    float64
	// Of strokes: their number, and the share of the time spent forward.
	strokes int
	forward float64
	// Of pulls: which one of how many.
	pull, pulls int
}

// worked is a leg of a pass.
type worked struct {
	leg   *route.Leg
	row   *site.PassRow // nil where the leg is only passed
	pulls int
}

func (w worked) length() unit.Length { return w.leg.To - w.leg.From }

// legs lists the legs up to the end of a pass, with what it does there.
func (l *lines) legs(run *route.Run, pass *route.Pass) []worked {
	const hair = 1e-6
	var out []worked
	for i := range run.Path {
		leg := &run.Path[i]
		if leg.To > pass.End+hair {
			break
		}
		w := worked{leg: leg}
		if p, ok := l.g.PipeIndex(leg.Pipe); ok && leg.Cleaned {
			w.row, w.pulls = l.row(&l.g.Net.Pipes[p], pass.Kind)
		}
		out = append(out, w)
	}
	return out
}

// row is the table's row for a pass of a pipe, nil where it asks for none.
func (l *lines) row(p *network.Pipe, kind site.PassKind) (*site.PassRow, int) {
	severity := p.Severity
	if severity == "" {
		severity = network.Moderate
	}
	deposit := p.Deposit
	if deposit == "" {
		deposit = network.NoDeposit
	}
	rows := l.tables.Deposits[deposit].Passes
	for i := range rows {
		if n := rows[i].Pulls[severity]; rows[i].Kind == kind && n > 0 {
			return &rows[i], n
		}
	}
	return nil, 0
}

// phases lays out a pass over the time that it takes.
func (l *lines) phases(run *route.Run, pass *route.Pass, takes time.Duration) []phase {
	b := l.write(run, pass)
	b.fit(takes)
	return b.phases
}

// write writes down a pass at the crew's own pace.
func (l *lines) write(run *route.Run, pass *route.Pass) *passBook {
	b := &passBook{crew: &l.site.Rig.Crew, down: run.Direction == route.Downstream}
	legs := l.legs(run, pass)
	for _, w := range legs {
		b.out(w)
	}
	for j := len(legs); j > 0; {
		i := j - 1
		for i > 0 && legs[i-1].row != nil && legs[i-1].pulls == legs[j-1].pulls {
			i--
		}
		b.back(legs[i:j])
		j = i
	}
	return b
}

// passBook writes down the phases of a pass.
type passBook struct {
	crew   *rig.Crew
	down   bool
	phases []phase
	now    float64 // seconds
}

// add writes a phase; worked pipe takes longer in a downstream run.
func (b *passBook) add(p phase, takes time.Duration, worked bool) {
	p.begins, p.takes = b.now, takes.Seconds()
	if worked && b.down {
		p.takes *= 1 + b.crew.Downstream
	}
	b.now += p.takes
	b.phases = append(b.phases, p)
}

// out goes out over a leg.
func (b *passBook) out(w worked) {
	p := phase{motion: GoingOut, from: w.leg.From, to: w.leg.To}
	if w.row == nil || !w.row.Strokes {
		b.add(p, rig.Over(w.length(), b.crew.Travel), w.row != nil)
		return
	}
	both := b.crew.StrokeOut(w.length())
	p.motion, p.strokes = Stroking, max(1, b.crew.Strokes(w.length()))
	p.forward = 1
	if both > 0 {
		p.forward = min(1, float64(rig.Over(2*w.length(), b.crew.Forward))/float64(both))
	}
	b.add(p, both, true)
}

// back comes back over legs that are all pulled as often, or only passed.
func (b *passBook) back(legs []worked) {
	pulls := max(1, legs[0].pulls)
	for n := 1; n <= pulls; n++ {
		if n > 1 {
			for _, w := range legs {
				b.add(phase{motion: Returning, from: w.leg.From, to: w.leg.To, pull: n, pulls: pulls},
					rig.Over(w.length(), b.crew.Travel), true)
			}
		}
		for _, w := range slices.Backward(legs) {
			p := phase{motion: Pulling, from: w.leg.To, to: w.leg.From, pull: n, pulls: pulls}
			pace := b.crew.Travel
			if w.row != nil {
				pace = w.row.Pull
			} else {
				p.motion = ComingIn
			}
			b.add(p, rig.Over(w.length(), pace), w.row != nil)
		}
	}
}

// fit stretches all phases by one share until they fill a time.
func (b *passBook) fit(takes time.Duration) {
	if b.now <= 0 {
		b.phases = nil
		return
	}
	share := takes.Seconds() / b.now
	for i := range b.phases {
		b.phases[i].begins *= share
		b.phases[i].takes *= share
	}
}

// phaseAt finds the phase in force so long after the pass began, and the share of
// it that is over.
func phaseAt(phases []phase, since time.Duration) (p *phase, share float64, ok bool) {
	t := since.Seconds()
	i := sort.Search(len(phases), func(i int) bool { return phases[i].begins > t }) - 1
	if i < 0 {
		return nil, 0, false
	}
	p = &phases[i]
	if p.takes <= 0 {
		return p, 1, true
	}
	return p, max(0, min((t-p.begins)/p.takes, 1)), true
}

// reading is the hose counter's after a share of the phase; back tells whether
// the nozzle is on its way back.
func (p *phase) reading(share float64) (at unit.Length, back bool) {
	if p.motion == Stroking {
		done, back := p.stroke(share)
		return p.from + unit.Length(done)*(p.to-p.from), back
	}
	if share >= 1 {
		return p.to, p.to < p.from
	}
	return p.from + unit.Length(share)*(p.to-p.from), p.to < p.from
}

// stroke is how far strokes got after a share of their time, as a share of the
// way. A stroke nets half of its length; the last one would pass the end, so its
// second half is gone twice instead: to the end, back, and to the end again. All
// in all the way is gone twice forward and once back.
func (p *phase) stroke(share float64) (done float64, back bool) {
	n := float64(p.strokes)
	out := p.forward / (2 * n) // the time to go forward over what a stroke nets
	ret := (1 - p.forward) / n // and to come back over it
	k := max(0, min(math.Floor(share/(2*out+ret)), n-1))
	t := share - k*(2*out+ret)
	if k < n-1 {
		if t < 2*out {
			return (k + part(t, out)) / n, false
		}
		return (k + 2 - part(t-2*out, ret)) / n, true
	}
	switch {
	case t < out:
		return (k + part(t, out)) / n, false
	case t < out+ret:
		return (k + 1 - part(t-out, ret)) / n, true
	}
	return min(1, (k+part(t-out-ret, out))/n), false
}

// part is t as a part of a time, all of it where that is none.
func part(t, of float64) float64 {
	if of <= 0 {
		return 1
	}
	return t / of
}
