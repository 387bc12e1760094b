package aim

import (
	"math"
	"slices"

	"linemap/internal/network"
)

// box is a rectangle on the plan, in metres, borders included.
type box struct{ x0, y0, x1, y1 float64 }

func around(a, b network.Point) box {
	ax, ay, bx, by := a.X.Metres(), a.Y.Metres(), b.X.Metres(), b.Y.Metres()
	return box{min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)}
}

// sound reports whether the box has finite borders.
func (b box) sound() bool {
	sum := b.x0 + b.y0 + b.x1 + b.y1
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}

func (b box) grown(by float64) box { return box{b.x0 - by, b.y0 - by, b.x1 + by, b.y1 + by} }

func (b box) meets(c box) bool { return b.x0 <= c.x1 && c.x0 <= b.x1 && b.y0 <= c.y1 && c.y0 <= b.y1 }

func (b box) with(c box) box {
	return box{min(b.x0, c.x0), min(b.y0, c.y0), max(b.x1, c.x1), max(b.y1, c.y1)}
}

// fan is how many boxes lie in one of the next row of a tree.
const fan = 16

// tree finds the boxes that meet another one. It is packed once by place, so
// that clusters and far outliers do it no harm: rows of boxes, each row around
// every fan boxes of the row before.
type tree struct{ rows [][]box }

// middle is where a box lies on one axis, by twice its coordinate.
type middle struct {
	at  float64
	box int32
}

func (m middle) compare(n middle) int {
	switch {
	case m.at < n.at:
		return -1
	case m.at > n.at:
		return 1
	}
	return int(m.box - n.box)
}

// newTree packs boxes in O(n log n); order lists them as the tree has them.
func newTree(boxes []box) (t tree, order []int32) {
	sorted := make([]middle, len(boxes))
	for i, b := range boxes {
		sorted[i] = middle{b.x0 + b.x1, int32(i)}
	}
	// Upright strips of as many leaves as there are strips, each packed upward.
	leaves := (len(boxes) + fan - 1) / fan
	strip := fan * max(1, int(math.Ceil(math.Sqrt(float64(leaves)))))
	slices.SortFunc(sorted, middle.compare)
	order = make([]int32, len(boxes))
	row := make([]box, len(boxes))
	for i := 0; i < len(sorted); i += strip {
		part := sorted[i:min(i+strip, len(sorted))]
		for k := range part {
			b := &boxes[part[k].box]
			part[k].at = b.y0 + b.y1
		}
		slices.SortFunc(part, middle.compare)
		for k, m := range part {
			order[i+k], row[i+k] = m.box, boxes[m.box]
		}
	}
	t.rows = append(t.rows, row)
	for len(row) > 1 {
		up := make([]box, 0, (len(row)+fan-1)/fan)
		for i := 0; i < len(row); i += fan {
			b := row[i]
			for _, c := range row[i+1 : min(i+fan, len(row))] {
				b = b.with(c)
			}
			up = append(up, b)
		}
		t.rows = append(t.rows, up)
		row = up
	}
	return t, order
}

// visit calls do with the index of every box that meets b.
func (t *tree) visit(b box, do func(i int)) {
	top := len(t.rows) - 1
	if top >= 0 {
		t.descend(top, 0, len(t.rows[top]), b, do)
	}
}

func (t *tree) descend(row, from, to int, b box, do func(i int)) {
	for i := from; i < to; i++ {
		switch {
		case !t.rows[row][i].meets(b):
		case row == 0:
			do(i)
		default:
			t.descend(row-1, i*fan, min((i+1)*fan, len(t.rows[row-1])), b, do)
		}
	}
}
