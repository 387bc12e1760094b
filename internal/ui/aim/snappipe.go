package aim

import (
	"fmt"
	"math"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// onPipe is a place on a pipe: the one nearest to the pointer, or one beside it
// at which the leg meets a pipe squarely or at one of the trade's angles.
func (x *Index) onPipe(s Sight) (Aim, bool) {
	var plain, told found
	var at network.Point // of told
	any, better := false, false
	off := s.Within
	ray, turned := Heading(0), false
	if s.From != nil && !s.free() {
		ray, turned = s.ray()
	}
	x.near(s.At, s.Level, s.Within, func(f found) {
		t := &x.things[f.leg.thing]
		if t.ref.Kind != edit.Pipe || s.skips(t.ref) {
			return
		}
		if !any || f.before(plain) {
			plain, any = f, true
		}
		if s.From == nil || s.free() {
			return
		}
		a, b := t.leg(f.leg.i)
		consider := func(p network.Point, ok bool) {
			away := p.Distance(s.At)
			if ok && away <= off && nearest(p, a, b).Distance(p) <= unit.Millimetres(0.001) && p.Distance(*s.From) > 0 {
				told, at, better, off = f, p, true, away
			}
		}
		foot := nearest(*s.From, a, b)
		consider(foot, foot != a && foot != b)
		if along, ok := Along(a, b); ok && turned {
			p, met := ray.crossing(*s.From, along, a)
			consider(p, met && ray.ahead(*s.From, p) > 0)
		}
	})
	switch {
	case better:
		return x.pipeAim(s, told, at), true
	case any:
		return x.pipeAim(s, plain, plain.at), true
	}
	return Aim{}, false
}

func (x *Index) pipeAim(s Sight, f found, at network.Point) Aim {
	t := &x.things[f.leg.thing]
	p := &x.pipes[t.of]
	a := s.plain(tidy(at))
	a.Anchor.Pipe, a.Snapped = p.ID, p.Name()
	if s.From == nil {
		return a
	}
	start, end := t.leg(f.leg.i)
	leg, okLeg := Along(*s.From, a.Anchor.At)
	pipe, okPipe := Along(start, end)
	if !okLeg || !okPipe {
		return a
	}
	switch angle := acute(pipe.Turn(leg)).Degrees(); {
	case math.Abs(angle-90) < 0.05:
		a.Snapped += ", square to it"
	default:
		a.Snapped += fmt.Sprintf(", at %s to it", degrees(angle))
	}
	return a
}

// acute is the angle between two lines that have no direction.
func acute(turn unit.Angle) unit.Angle {
	turn = unit.Angle(math.Abs(float64(turn)))
	return min(turn, unit.QuarterBends(2)-turn)
}

// ends finds out which way the open ends of pipes would go on.
func (x *Index) ends(g *network.Graph) {
	x.out = make([]Heading, len(x.nodes))
	count := make([]int, len(x.nodes))
	for i := range x.out {
		x.out[i] = Heading(math.NaN())
	}
	for i := range x.things {
		t := &x.things[i]
		if t.ref.Kind != edit.Pipe {
			continue
		}
		p := &x.pipes[t.of]
		last := len(t.line) - 1
		for _, e := range []struct {
			node           network.NodeID
			at, inner, way int
		}{{p.From, 0, 1, 1}, {p.To, last, last - 1, -1}} {
			n, ok := g.NodeIndex(e.node)
			if !ok {
				continue
			}
			count[n]++
			for k := e.inner; k >= 0 && k <= last; k += e.way {
				if h, ok := Along(t.line[k], t.line[e.at]); ok {
					x.out[n] = h
					break
				}
			}
		}
	}
	for i, n := range count {
		if n != 1 {
			x.out[i] = Heading(math.NaN())
		}
	}
}

// stretch is how far the extension of an end draws the pointer, in times of how
// near things do.
const stretch = 24

// extension is the place nearest to the pointer on the extension of an open end:
// where a ray from the last place meets it or, without a ray, at a whole step of
// the grid from the end. It tells the line of the extension and the end's pipe.
func (x *Index) extension(s Sight, ray *Heading) (at network.Point, guide []network.Point, name string, ok bool) {
	if s.Bare || s.Exact {
		return at, nil, "", false
	}
	off := s.Within
	x.near(s.At, s.Level, stretch*s.Within, func(f found) {
		t := &x.things[f.leg.thing]
		if t.ref.Kind != edit.Node || s.skips(t.ref) || math.IsNaN(float64(x.out[t.of])) {
			return
		}
		end, out := t.line[0], x.out[t.of]
		ahead := out.ahead(end, s.At)
		if !(ahead > s.Within) {
			return
		}
		p := out.To(end, ahead)
		away := p.Distance(s.At)
		switch {
		case away > s.Within:
			return
		case ray != nil:
			var met bool
			if p, met = ray.crossing(*s.From, out, end); !met || ray.ahead(*s.From, p) <= 0 || out.ahead(end, p) <= 0 {
				return
			}
			away = p.Distance(s.At)
		case s.Grid > 0:
			p = out.To(end, whole(ahead, s.Grid))
		}
		if away <= off {
			at, off, ok = tidy(p), away, true
			guide, name = []network.Point{end, at}, x.nodes[t.of].Name()
		}
	})
	return at, guide, name, ok
}

// inLine is the place on the extension of an open end.
func (x *Index) inLine(s Sight) (Aim, bool) {
	at, guide, name, ok := x.extension(s, nil)
	if !ok {
		return Aim{}, false
	}
	a := s.plain(at)
	a.Guide, a.Snapped = guide, "in line with "+name
	return a, true
}
