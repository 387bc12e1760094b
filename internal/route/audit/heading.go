package audit

import (
	"math"

	"linemap/internal/unit"
)

// vector is a direction: east, north, up.
type vector struct{ x, y, z float64 }

func (v vector) times(k float64) vector { return vector{k * v.x, k * v.y, k * v.z} }

func (v vector) dot(w vector) float64 { return v.x*w.x + v.y*w.y + v.z*w.z }

func (v vector) cross(w vector) vector {
	return vector{v.y*w.z - v.z*w.y, v.z*w.x - v.x*w.z, v.x*w.y - v.y*w.x}
}

// leaving is the direction in which a pipe leaves a node at one of its ends.
// Steep pipe (45 degrees and more) counts as plumb, other pipe as level; ok is
// false where nothing is drawn.
func (g *ground) leaving(pipe int, fromUpperEnd bool) (v vector, ok bool) {
	rise := g.pipes[pipe].climb
	if fromUpperEnd {
		rise = -rise
	}
	if math.Abs(float64(rise)) >= math.Pi/4-dust {
		return vector{z: math.Copysign(1, float64(rise))}, true
	}
	line := g.drawn(pipe)
	if !fromUpperEnd {
		line = reversed(line)
	}
	line = withoutRepeats(line)
	if len(line) < 2 {
		return vector{}, false
	}
	d := float64(straight(line[0], line[1]))
	return vector{x: float64(line[1].X-line[0].X) / d, y: float64(line[1].Y-line[0].Y) / d}, true
}

// turnDrawn is the turn as drawn between two pipes, and its side; no turn where
// the sketch does not tell.
func (g *ground) turnDrawn(from, to int, down bool) (unit.Angle, string) {
	back, okIn := g.leaving(from, !down)
	out, okOut := g.leaving(to, down)
	if !okIn || !okOut {
		return 0, ""
	}
	in := back.times(-1)
	turn := in.cross(out)
	angle := unit.Angle(math.Atan2(math.Sqrt(turn.dot(turn)), in.dot(out)))
	switch up := in.z + out.z; {
	case angle < straightUnder:
		return angle, ""
	case up > 0:
		return angle, "up"
	case up < 0:
		return angle, "down"
	case turn.z < 0:
		return angle, "right"
	}
	return angle, "left"
}
