package chart

import (
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/network"
)

// trace returns a pipe on the ground, from its upstream end.
func trace(g *network.Graph, p int) []drawing.Point { return points(g.Polyline(p)) }

// trace is [trace] of the site's own graph, followed once for each pipe. Nobody
// may change it.
func (d *draft) trace(p int) []drawing.Point {
	if d.traced == nil {
		d.traced = make([][]drawing.Point, len(d.graph.Net.Pipes))
	}
	if d.traced[p] == nil {
		d.traced[p] = trace(d.graph, p)
	}
	return d.traced[p]
}

func point(p network.Point) drawing.Point {
	return drawing.Point{X: p.X.Metres(), Y: p.Y.Metres()}
}

func points(line []network.Point) []drawing.Point {
	pts := make([]drawing.Point, len(line))
	for i, p := range line {
		pts[i] = point(p)
	}
	return pts
}

func lengthOf(line []drawing.Point) float64 {
	sum := 0.0
	for i := 1; i < len(line); i++ {
		sum += math.Hypot(line[i].X-line[i-1].X, line[i].Y-line[i-1].Y)
	}
	return sum
}
