package replay

import (
	"slices"
	"time"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

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
