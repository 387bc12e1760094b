package edit_test

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestAddCleanout(t *testing.T) {
	const text = `OUT(at=0m,0m) -5m/6in/id=a- W1(at=5m,0m) -5m/4in/id=b- B1(at=10m,0m) -4m/id=c- CAP(at=10m,4m)
	              W1 ~4m/3in/id=d- F1(at=8m,3m)`
	for _, c := range []struct {
		name  string
		pipe  network.PipeID
		along unit.Length
		x, y  unit.Length
		size  unit.Size
		err   string
	}{
		{name: "in the middle", pipe: "b", along: 2, x: 8, y: 0, size: 4},
		{name: "at the lower end, above a wye", pipe: "b", along: 5, x: 5.3, y: 0, size: 4},
		{name: "at the lower end, in the place of a bend", pipe: "c", along: 4, x: 10, y: 0, size: 4},
		{name: "at the upper end, in the place of a cap", pipe: "c", along: 0, x: 10, y: 4, size: 4},
		{name: "at the upper end, below a fixture", pipe: "d", along: 0, x: 8 - 0.3*math.Sqrt2/2, y: 3 - 0.3*math.Sqrt2/2, size: 3},
		{name: "before the pipe", pipe: "b", along: -1, err: "pipe b is"},
		{name: "past the pipe", pipe: "b", along: 6, err: "cannot be put in at"},
		{name: "no number", pipe: "b", along: unit.Length(math.NaN()), err: "cannot be put in"},
		{name: "no pipe", pipe: "q", err: `no pipe "q"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBoard(t, text)
			add := func() (*edit.Edit, error) { return edit.AddCleanout(b.Site(), c.pipe, c.along) }
			if c.err != "" {
				b.refuses(c.err, add)
				return
			}
			n := b.node(network.NodeID(b.do(add()).ID))
			assert.InDelta(t, 0, n.At.Distance(pt(c.x, c.y)).Metres(), 1e-6)
			assert.Equal(t, &network.Access{Kind: network.TwoWayCleanout, Size: c.size, Entry: unit.Degrees(45)}, n.Access)
			assert.Equal(t, "CO-1", n.Label)
			assert.Equal(t, "add cleanout", b.NextUndo())
		})
	}
}

// The length along a pipe is measured as the planner measures it, and not as it
// is drawn.
func TestAddCleanoutByMeasuredLength(t *testing.T) {
	b := newBoard(t, mainLine)
	long := unit.Metres(24)
	b.Site().Network.Pipes[0].Length = &long
	made := b.do(edit.AddCleanout(b.Site(), "m", 6))
	assert.Equal(t, pt(9, 0), b.node(network.NodeID(made.ID)).At)
	assert.InDelta(t, 18, b.pipe("m").Length.Metres(), 1e-9)
}

// The planner's cure, carried out, cures: what it said would be gained is cleaned,
// and so is the stub below a cleanout that could not take the place of a node.
func TestAddCleanoutCures(t *testing.T) {
	for name, text := range map[string]string{
		"at the lower end, above an outlet": "OUT -40ft/4in- CO1(up) -100ft- F1",
		"in the place of a bend":            "OUT -20ft- TR1 -10ft- B1 -100ft- F1",
		"above a wye":                       "OUT -20ft- CO1(up) -10ft- W1 -80ft- F1 ; W1 ~40ft/1.5in- R1 -60ft/3in- F2",
	} {
		t.Run(name, func(t *testing.T) {
			s := sample.Sketch(text, [2]float64{40, 20})
			missed, cures := missedLength(t, s)
			var cure route.Cure
			for _, c := range cures {
				if c.Kind == route.NewCleanout {
					cure = c
				}
			}
			require.NotZero(t, cure, "the planner asks for a cleanout")
			b := &board{t, edit.NewHistory(s)}
			b.do(edit.AddCleanout(s, cure.Pipe, cure.At))
			still, _ := missedLength(t, s)
			assert.InDelta(t, float64(missed-cure.Gains), float64(still), 1e-6)
		})
	}
}

// missedLength plans a site and sums up the pipe that is not cleaned, with the
// cures for it.
func missedLength(t *testing.T, s *site.Site) (unit.Length, []route.Cure) {
	plan, err := route.Solve(context.Background(), s, sample.Tables(), route.Options{})
	require.NoError(t, err)
	var sum unit.Length
	var cures []route.Cure
	for _, f := range plan.Shortfalls {
		sum += f.Length
		cures = append(cures, f.Cure)
	}
	return sum, cures
}
