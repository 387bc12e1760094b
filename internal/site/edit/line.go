package edit

import (
	"math"
	"slices"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// atEnd is how near to the end of a pipe a place is that end: less is no length
// of pipe that anyone would cut.
const atEnd = unit.Length(0.01)

// straying is how far a point may lie off a straight line and still be on it.
const straying = unit.Length(0.0005)

// place is a place on the way of a pipe.
type place struct {
	at      network.Point
	corners int     // how many corners of the pipe lie before it
	along   float64 // the share of the pipe that lies before it
}

// line is the way of a pipe on the plan, from its From to its To.
func (d *Draft) line(p *network.Pipe) []network.Point {
	from, _ := d.Node(p.From)
	to, _ := d.Node(p.To)
	return append(append([]network.Point{from.At}, p.Via...), to.At)
}

// nearest is the place on a way that is nearest to a point. The way has some
// length.
func nearest(line []network.Point, to network.Point) place {
	best, off := place{at: line[0]}, unit.Length(math.Inf(1))
	total, before := network.WayLength(line), unit.Length(0)
	for i := 1; i < len(line); i++ {
		foot, share := footOf(to, line[i-1], line[i])
		length := line[i-1].Distance(line[i])
		if away := foot.Distance(to); away < off {
			off = away
			best = place{foot, i - 1, float64((before + unit.Length(share)*length) / total)}
		}
		before += length
	}
	return best
}

// placeAlong is the place on a way at a share of its length.
func placeAlong(line []network.Point, along float64) place {
	left := unit.Length(along) * network.WayLength(line)
	for i := 1; i < len(line); i++ {
		length := line[i-1].Distance(line[i])
		if left <= length || i == len(line)-1 {
			share := 0.0
			if length > 0 {
				share = min(1, float64(left/length))
			}
			return place{between(line[i-1], line[i], share), i - 1, along}
		}
		left -= length
	}
	return place{at: line[0]}
}

// footOf is the point of the line from a to b that is nearest to p, and the
// share of the line before it.
func footOf(p, a, b network.Point) (network.Point, float64) {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	square := dx*dx + dy*dy
	if square == 0 {
		return a, 0
	}
	share := (float64(p.X-a.X)*dx + float64(p.Y-a.Y)*dy) / square
	share = max(0, min(1, share))
	return between(a, b, share), share
}

// between is the point at a share of the line from a to b.
func between(a, b network.Point, share float64) network.Point {
	switch share {
	case 0:
		return a
	case 1:
		return b
	}
	return network.Point{X: tidy(a.X + unit.Length(share)*(b.X-a.X)), Y: tidy(a.Y + unit.Length(share)*(b.Y-a.Y))}
}

// distinct returns a way without the points that repeat the one before.
func distinct(line []network.Point) []network.Point {
	return slices.CompactFunc(slices.Clone(line), func(a, b network.Point) bool { return a == b })
}

// flip returns a way the other way round.
func flip(line []network.Point) []network.Point {
	line = slices.Clone(line)
	slices.Reverse(line)
	return line
}
