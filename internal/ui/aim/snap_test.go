package aim

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestSnap(t *testing.T) {
	x := index(yard())
	from := func(x, y float64) *network.Point { p := pt(x, y); return &p }
	east := &Way{Heading: 0}
	root := math.Sqrt(2)
	long := 9*math.Cos(math.Pi/8) + 3.5*math.Sin(math.Pi/8) // how far the pointer lies ahead
	for _, c := range []struct {
		name       string
		s          Sight
		at         network.Point
		snapped    string
		node, pipe string
	}{
		{"a joint", Sight{At: pt(0.3, 0.2), Grid: 1}, pt(0, 0), "cleanout CO-1", "co", ""},
		{"a joint without a label", Sight{At: pt(9.8, 0.2), Grid: 1}, pt(10, 0), "cap end", "end", ""},
		{"a joint before the angle", Sight{At: pt(0.3, 0.2), Grid: 1, From: from(3, 7), Way: east}, pt(0, 0), "cleanout CO-1", "co", ""},
		{"no joint when told to skip it", Sight{At: pt(0.1, 0.2), Grid: 1, Skip: func(r edit.Ref) bool { return true }}, pt(0, 0), "grid", "", ""},
		{"no joint for what stands on the ground", Sight{At: pt(0.1, 0.2), Grid: 1, Bare: true}, pt(0, 0), "grid", "", ""},
		{"a pipe", Sight{At: pt(3.3, 0.2), Grid: 1}, pt(3.3, 0), "L-3", "", "main"},
		{"a pipe, squarely", Sight{At: pt(3.2, 0.2), Grid: 1, From: from(3, 7)}, pt(3, 0), "L-3, square to it", "", "main"},
		{"a pipe at an eighth", Sight{At: pt(6.2, 0.3), From: from(3, 3), Way: east}, pt(6, 0), "L-3, at 45° to it", "", "main"},
		{"a pipe at any angle", Sight{At: pt(6.2, 0.3), From: from(3, 3), Free: true}, pt(6.2, 0), "L-3, at 43.2° to it", "", "main"},
		{"a pipe squarely, from far along it", Sight{At: pt(9, 0.1), From: from(8.9, 40)}, pt(8.9, 0), "L-3, square to it", "", "main"},
		{"a leg almost along the pipe", Sight{At: pt(6, 0.1), From: from(3, 1e-7), Grid: 1}, pt(6, 0), "L-3, at 0° to it", "", "main"},
		{"a leg on the line of the pipe", Sight{At: pt(9, 0.1), From: from(-3, 0), Grid: 1}, pt(9, 0), "L-3, at 0° to it", "", "main"},
		{"straight on", Sight{At: pt(7.3, 2.1), From: from(3, 2), Way: east, Grid: 1}, pt(7, 2), "straight on", "", ""},
		{"an eighth to the left", Sight{At: pt(32.1, 31.8), From: from(30, 30), Way: east, Grid: 1}, pt(30+3/root, 30+3/root), "1/8 bend to the left", "", ""},
		{"a sixteenth to the right", Sight{At: pt(39, 26.5), From: from(30, 30), Way: east}, pt(30+long*math.Cos(math.Pi/8), 30-long*math.Sin(math.Pi/8)), "1/16 bend to the right", "", ""},
		{"never back over the leg before", Sight{At: pt(20, 30.1), From: from(30, 30), Way: east, Grid: 1}, pt(30-9*math.Cos(math.Pi/8), 30+9*math.Sin(math.Pi/8)), "158 degree turn to the left", "", ""},
		{"the first leg by its bearing", Sight{At: pt(30.1, 25), From: from(30, 30), Grid: 1}, pt(30, 25), "bearing 180°", "", ""},
		{"the first leg off a pipe", Sight{At: pt(33, 33.2), From: from(30, 30), Way: &Way{Heading: 0, Of: "L-3"}, Grid: 1}, pt(30+4/root, 30+4/root), "45° to L-3", "", ""},
		{"any angle falls on the grid", Sight{At: pt(7.3, 2.2), From: from(3, 2), Free: true, Grid: 1}, pt(7, 2), "grid", "", ""},
		{"exactly", Sight{At: pt(7.3, 2.2), From: from(3, 2), Exact: true, Grid: 1}, pt(7.3, 2.2), "", "", ""},
		{"exactly on a pipe", Sight{At: pt(7.3, 0.2), From: from(7, 2), Exact: true, Grid: 1}, pt(7.3, 0), "L-3, at 81.5° to it", "", "main"},
		{"in line with an end", Sight{At: pt(13.3, 0.2), Grid: 1}, pt(13, 0), "in line with cap end", "", ""},
		{"an angle meets the extension", Sight{At: pt(14.2, 0.3), From: from(11, 3.1), Way: east, Grid: 1}, pt(14.1, 0), "1/8 bend to the right, in line with cap end", "", ""},
		{"not in line behind the end", Sight{At: pt(-5, 8.2), Grid: 1}, pt(-5, 8), "grid", "", ""},
		{"the pointer on the last place", Sight{At: pt(30, 30.2), From: from(30, 30.2), Grid: 1}, pt(30, 30), "grid", "", ""},
		{"no grid", Sight{At: pt(30.123456789123, 30)}, pt(30.123456789, 30), "", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.s.Level, c.s.Within = "Ground", 0.5
			a := x.Snap(c.s)
			assert.InDelta(t, c.at.X.Metres(), a.At().X.Metres(), 2e-6, "east")
			assert.InDelta(t, c.at.Y.Metres(), a.At().Y.Metres(), 2e-6, "north")
			assert.Equal(t, c.snapped, a.Snapped)
			assert.Equal(t, network.NodeID(c.node), a.Anchor.Node)
			assert.Equal(t, network.PipeID(c.pipe), a.Anchor.Pipe)
			assert.Equal(t, "Ground", a.Anchor.Level)
		})
	}
}

func TestSnapTakesAnything(t *testing.T) {
	x := index(yard())
	odd := rapid.SampledFrom([]float64{0, 1, -1, 5, 10, 1e-12, 1e5, -1e5, 1e300, math.NaN(), math.Inf(1), math.Inf(-1)})
	rapid.Check(t, func(t *rapid.T) {
		s := Sight{
			At: pt(odd.Draw(t, "x"), odd.Draw(t, "y")), Level: rapid.SampledFrom([]string{"", "Ground", "First"}).Draw(t, "level"),
			Within: unit.Metres(odd.Draw(t, "within")), Grid: unit.Metres(odd.Draw(t, "grid")),
			Free: rapid.Bool().Draw(t, "free"), Exact: rapid.Bool().Draw(t, "exact"), Bare: rapid.Bool().Draw(t, "bare"),
		}
		if rapid.Bool().Draw(t, "from") {
			p := pt(odd.Draw(t, "fx"), odd.Draw(t, "fy"))
			s.From = &p
		}
		if rapid.Bool().Draw(t, "way") {
			s.Way = &Way{Heading: Heading(rapid.Float64Range(-9, 9).Draw(t, "heading"))}
		}
		first, again := x.Snap(s), x.Snap(s)
		if finite(first.At()) {
			assert.Equal(t, first, again)
		}
	})
}

func TestHeadings(t *testing.T) {
	for _, c := range []struct {
		to      network.Point
		bearing float64
		words   string
	}{
		{pt(0, 1), 0, "bearing 0°"},
		{pt(1, 0), 90, "bearing 90°"},
		{pt(0, -1), 180, "bearing 180°"},
		{pt(-1, 0), 270, "bearing 270°"},
		{pt(1, 1), 45, "bearing 45°"},
		{pt(-1e-4, 1), 360 - 0.00573, "bearing 0°"},
	} {
		h, ok := Along(pt(0, 0), c.to)
		assert.True(t, ok)
		assert.InDelta(t, c.bearing, h.Bearing(), 1e-4)
		assert.Equal(t, c.words, BearingWords(h))
		assert.InDelta(t, 0, h.Turn(FromBearing(h.Bearing())).Degrees(), 1e-9)
	}
	_, ok := Along(pt(3, 3), pt(3, 3))
	assert.False(t, ok)
}

func TestTurnWords(t *testing.T) {
	for turn, want := range map[float64]string{
		0: "straight on", 0.4: "straight on", 22.5: "1/16 bend to the left", -45: "1/8 bend to the right",
		90: "1/4 bend to the left", -60: "1/6 bend to the right", 33: "33 degree turn to the left",
	} {
		assert.Equal(t, want, TurnWords(unit.Degrees(turn)))
	}
}
