package chart

import (
	"math"

	"linemap/internal/export/drawing"
	"linemap/internal/export/label"
)

// stations returns, of n places at equal distances along a line, the first one
// at share phase of a distance, the numbers of those that the panel shows: a
// pipe may run on for miles beyond it.
func (sd *storeyDraft) stations(line []drawing.Point, n, phase float64) []float64 {
	window := sd.window()
	var all []float64
	next, way, long := 0.0, 0.0, lengthOf(line)
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		d := math.Hypot(b.X-a.X, b.Y-a.Y)
		from, to, ok := 0.0, 1.0, true
		if window != nil {
			from, to, ok = window.share(a, b)
		}
		if ok && d > 0 {
			last := min(n-1, math.Floor((way+to*d)/long*n-phase))
			for next = max(next, math.Ceil((way+from*d)/long*n-phase)); next <= last; next++ {
				all = append(all, next)
			}
		}
		way += d
	}
	return all
}

// stretch is how long a part of a line with labels of its own is at most on a
// board, in millimetres, so that some label is seen however near one looks.
const stretch = 220.0

// parted returns the parts of a line that have a label each: on paper what is
// visible of it; on a board as many equal parts as its length asks for, of which
// those that may be seen are returned.
func (sd *storeyDraft) parted(line []drawing.Point) [][]drawing.Point {
	if sd.board == nil {
		return sd.visible(line)
	}
	n := math.Ceil(lengthOf(line) * sd.frame.Scale / stretch)
	if n <= 1 {
		if sd.sees(line) {
			return [][]drawing.Point{line}
		}
		return nil
	}
	var all [][]drawing.Point
	near := map[float64]bool{}
	for _, phase := range []float64{0, 0.25, 0.5, 0.75} { // any of it may be seen
		for _, i := range sd.stations(line, n, phase) {
			if !near[i] {
				near[i] = true
				all = append(all, between(line, i/n, (i+1)/n))
			}
		}
	}
	return all
}

// between cuts a line at two shares of its length.
func between(line []drawing.Point, from, to float64) []drawing.Point {
	long := lengthOf(line)
	start, _ := label.Along(line, from)
	end, _ := label.Along(line, to)
	part := []drawing.Point{start}
	way := 0.0
	for i := 1; i < len(line); i++ {
		way += math.Hypot(line[i].X-line[i-1].X, line[i].Y-line[i-1].Y)
		if way > from*long && way < to*long {
			part = append(part, line[i])
		}
	}
	return append(part, end)
}
