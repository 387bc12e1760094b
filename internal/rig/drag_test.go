package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/unit"
)

// The check values below are computed, by the straight and the capstan
// formula, unless they name a publication.

// dry makes a hose's own mass its whole weight.
var dry = Water{}

// weighing is a hose of so many lbf/ft, water and all.
func weighing(lbf float64) *Hose { return &Hose{Mass: unit.PoundsPerFoot(lbf)} }

// steps builds a path in which the friction is mu.
type steps struct {
	mu  float64
	all []Step
}

func with(mu float64) *steps { return &steps{mu: mu} }

func (s *steps) turn(degrees float64) *steps {
	s.all = append(s.all, Step{Turn: unit.Degrees(degrees), Friction: Range{s.mu, s.mu, s.mu}})
	return s
}

func (s *steps) feet(ft float64) *steps {
	s.all = append(s.all, Step{Length: unit.Feet(ft), Friction: Range{s.mu, s.mu, s.mu}})
	return s
}

func TestCapstan(t *testing.T) {
	t.Parallel()
	for mu, table := range map[float64]map[float64]float64{
		0.3: {22.5: 1.125030, 45: 1.265693, 60: 1.369108, 72: 1.457891, 90: 1.601978},
		0.4: {22.5: 1.170089, 45: 1.369108, 60: 1.520256, 72: 1.653104, 90: 1.874456},
		0.5: {22.5: 1.216952, 45: 1.480973, 60: 1.688092, 72: 1.874456, 90: 2.193280},
	} {
		for degrees, factor := range table {
			s := with(mu).turn(degrees).all[0]
			assert.InDelta(t, factor, float64(Push(1, s, weighing(1), dry, LikelyReach)), 6e-7,
				"mu %v, %v degrees", mu, degrees)
		}
	}
}

func TestDragPublished(t *testing.T) {
	t.Parallel()
	drag := func(h *Hose, s *steps) unit.Force { return Drag(s.all, h, dry, LikelyReach) }
	// Cable pulling, published: 1.5 lb/ft over 200 ft at 0.3 is 90 lbf, and 144
	// after a quarter bend.
	assert.InEpsilon(t, 90, drag(weighing(1.5), with(0.3).feet(200)).PoundsForce(), 1e-9)
	assert.InEpsilon(t, 144.1779886, drag(weighing(1.5), with(0.3).feet(200).turn(90)).PoundsForce(), 1e-9)
	assert.InEpsilon(t, 37.5, drag(weighing(0.5), with(0.25).feet(300)).PoundsForce(), 1e-9)
	// 2.5 kg/m over 500 m at 0.4 is 4905 N with g = 9.81.
	long := []Step{{Length: 500, Friction: Range{0.4, 0.4, 0.4}}}
	assert.InEpsilon(t, 4905*9.80665/9.81, Drag(long, &Hose{Mass: 2.5}, dry, LikelyReach).Newtons(), 1e-9)
}

func TestDragAlongRoute(t *testing.T) {
	t.Parallel()
	h := weighing(0.255)
	route := with(0.4).feet(40).turn(90).feet(60).turn(45).feet(80).all
	for i, want := range []float64{4.08, 7.647781, 13.767781, 18.849576, 27.009576} {
		assert.InDelta(t, want, Drag(route[:i+1], h, dry, LikelyReach).PoundsForce(), 1e-6, "step %d", i)
	}
	// One step may hold the turn and the straight after it.
	joined := []Step{route[0], route[1], route[3]}
	joined[1].Length, joined[2].Length = route[2].Length, route[4].Length
	assert.InDelta(t, 27.009576, Drag(joined, h, dry, LikelyReach).PoundsForce(), 1e-6)

	reversed := with(0.4).feet(80).turn(45).feet(60).turn(90).feet(40).all
	assert.InDelta(t, 36.492944, Drag(reversed, h, dry, LikelyReach).PoundsForce(), 1e-6, "order matters")

	back := unit.PoundsForce(24.446271)
	for i, want := range []float64{32.606271, 44.641499, 50.761499, 95.150201, 99.230201} {
		peak := PeakPull(route[4-i:], h, dry, back, LikelyReach)
		assert.InDelta(t, want, peak.PoundsForce(), 2e-6, "%d steps back", i+1)
	}
}

func TestReachAlong(t *testing.T) {
	t.Parallel()
	h := weighing(0.255)
	route := with(0.4).feet(40).turn(90).feet(60).turn(45).feet(200).all
	for _, c := range []struct{ lbf, ft float64 }{
		{24.446271, 154.869560},
		{29.940445, 208.734011},
		{0, 0},
		{-5, 0},
		{4.08, 40}, // used up just before the turn
		{5, 40},    // stalls in the turn
		{18, 100},  // stalls in the second turn
		{1000, 300},
	} {
		got := ReachAlong(route, h, dry, unit.PoundsForce(c.lbf), LikelyReach)
		assert.InDelta(t, c.ft, got.Feet(), 5e-6, "%v lbf", c.lbf)
	}
	// A straight, by hose weight (empty and water) and friction.
	for _, c := range []struct{ lbfPerFoot, mu, ft float64 }{
		{0.17 + 0.08496971, 0.3, 319.5964},
		{0.17 + 0.08496971, 0.5, 191.7578},
		{0.13 + 0.04779546, 0.3, 458.3212},
		{0.13 + 0.04779546, 0.5, 274.9927},
	} {
		got := ReachAlong(with(c.mu).feet(1000).all, weighing(c.lbfPerFoot), dry,
			unit.PoundsForce(24.446271), LikelyReach)
		assert.InEpsilon(t, c.ft, got.Feet(), 3e-6)
	}
}

func TestDragOnSlopes(t *testing.T) {
	t.Parallel()
	h := weighing(0.255)
	slope := unit.Angle(math.Atan(float64(unit.InchesPerFoot(0.25))))
	at := func(climb unit.Angle, mu float64) []Step {
		return []Step{{Length: unit.Feet(100), Climb: climb, Friction: Range{mu, mu, mu}}}
	}
	assert.InDelta(t, 10.728921928, Drag(at(slope, 0.4), h, dry, LikelyReach).PoundsForce(), 1e-8, "up")
	assert.InDelta(t, 9.666652430, Drag(at(-slope, 0.4), h, dry, LikelyReach).PoundsForce(), 1e-8, "down")

	stack := at(unit.Degrees(90), 0.4)
	assert.InDelta(t, 25.5, Drag(stack, h, dry, LikelyReach).PoundsForce(), 1e-9, "the bare weight up a stack")
	down := at(unit.Degrees(-90), 0.4)
	assert.Zero(t, Drag(down, h, dry, LikelyReach), "hose slides down a stack by itself")
	assert.Equal(t, down[0].Length, ReachAlong(down, h, dry, 1, LikelyReach))

	// Pulled back out of a stack that it climbed, the hose's weight helps; the
	// largest pull is met with the nozzle at its foot.
	thrust := unit.PoundsForce(20)
	assert.Equal(t, thrust, PeakPull(stack, h, dry, thrust, LikelyReach))
	assert.InDelta(t, 45.5, PeakPull(down, h, dry, thrust, LikelyReach).PoundsForce(), 1e-9,
		"hauled up again with the jets pulling down")
	foot := append(with(0.4).feet(50).turn(90).all, stack...)
	want := 20*math.Exp(0.4*math.Pi/2) + 0.255*0.4*50
	assert.InDelta(t, want, PeakPull(foot, h, dry, thrust, LikelyReach).PoundsForce(), 1e-9)
	assert.InDelta(t, 5.1, PeakPull(foot[:1], h, dry, -3, LikelyReach).PoundsForce(), 1e-9,
		"no thrust leaves the drag")
}

func TestWeight(t *testing.T) {
	t.Parallel()
	// Computed: water of 998.2 kg/m3, 62.316 lb/ft3, in the bore, lb/ft.
	for bore, lbf := range map[float64]float64{
		0.25: 0.02124243, 0.375: 0.04779546, 0.5: 0.08496971, 0.625: 0.13276517, 0.75: 0.19118184, 1: 0.33987882,
	} {
		h := Hose{Bore: unit.Inches(bore)}
		assert.InEpsilon(t, lbf, h.Weight(reference, LikelyReach).PoundsForcePerFoot(), 5e-7, "%v in", bore)
	}
	h := Hose{Mass: unit.PoundsPerFoot(0.2), MassSpread: 0.25}
	for c, lbf := range map[Case]float64{LowReach: 0.25, LikelyReach: 0.2, HighReach: 0.15} {
		assert.InEpsilon(t, lbf, h.Weight(dry, c).PoundsForcePerFoot(), 1e-12, "case %d", c)
	}
	mu := Range{Low: 0.2, Likely: 0.3, High: 0.4}
	assert.Equal(t, []float64{0.4, 0.3, 0.2}, []float64{mu.Of(LowReach), mu.Of(LikelyReach), mu.Of(HighReach)})
}

// anyPath draws a path of up to eight steps; climb bounds its slopes in
// degrees.
func anyPath(t *rapid.T, climb float64) []Step {
	path := make([]Step, rapid.IntRange(1, 8).Draw(t, "steps"))
	for i := range path {
		mu := rapid.Float64Range(0.05, 0.6).Draw(t, "mu")
		spread := rapid.Float64Range(0, 0.5).Draw(t, "spread")
		path[i] = Step{
			Length:   unit.Length(rapid.Float64Range(0, 40).Draw(t, "length")),
			Turn:     unit.Degrees(rapid.SampledFrom([]float64{0, 22.5, 45, 60, 90}).Draw(t, "turn")),
			Climb:    unit.Degrees(rapid.Float64Range(-climb, climb).Draw(t, "climb")),
			Friction: Range{mu * (1 - spread), mu, mu * (1 + spread)},
		}
	}
	return path
}

func TestDragProperties(t *testing.T) {
	t.Parallel()
	h := &Hose{Bore: unit.Millimetres(12.7), Mass: 0.25, MassSpread: 0.1}
	w := WaterAt(10)
	cases := []Case{LowReach, LikelyReach, HighReach}
	t.Run("more friction and more length drag more", func(t *testing.T) {
		t.Parallel()
		rapid.Check(t, func(t *rapid.T) {
			path := anyPath(t, 2) // gentle enough that nothing slides by itself
			for _, c := range cases[1:] {
				require.LessOrEqual(t, Drag(path, h, w, c), Drag(path, h, w, c-1))
			}
			i := rapid.IntRange(0, len(path)-1).Draw(t, "step")
			more := append([]Step(nil), path...)
			more[i].Length++
			require.GreaterOrEqual(t, Drag(more, h, w, LikelyReach), Drag(path, h, w, LikelyReach))
		})
	})
	t.Run("drag is never negative, the peak never below the thrust", func(t *testing.T) {
		t.Parallel()
		rapid.Check(t, func(t *rapid.T) {
			path := anyPath(t, 90)
			thrust := unit.Force(rapid.Float64Range(0, 300).Draw(t, "thrust"))
			for _, c := range cases {
				require.GreaterOrEqual(t, float64(Drag(path, h, w, c)), 0.0)
				require.GreaterOrEqual(t, PeakPull(path, h, w, thrust, c), thrust)
			}
		})
	})
	t.Run("reach is where drag meets thrust", func(t *testing.T) {
		t.Parallel()
		rapid.Check(t, func(t *rapid.T) {
			path := anyPath(t, 90)
			thrust := unit.Force(rapid.Float64Range(0.1, 300).Draw(t, "thrust"))
			c := rapid.SampledFrom(cases).Draw(t, "case")
			reach := ReachAlong(path, h, w, thrust, c)
			slack := thrust * (1 + 1e-9)
			require.LessOrEqual(t, Drag(upTo(path, reach), h, w, c), slack)
			if total := totalOf(path); reach < total {
				require.Greater(t, Drag(upTo(path, reach+1e-6), h, w, c), thrust*(1-1e-9),
					"reach %v of %v", reach, total)
			} else {
				require.InDelta(t, float64(total), float64(reach), 1e-9)
			}
		})
	})
}

// upTo cuts a path off at a length. A turn at the very end is left out.
func upTo(path []Step, l unit.Length) []Step {
	var out []Step
	for _, s := range path {
		if l <= 1e-9 {
			break
		}
		s.Length = min(s.Length, l)
		l -= s.Length
		out = append(out, s)
	}
	return out
}

func totalOf(path []Step) unit.Length {
	var sum unit.Length
	for _, s := range path {
		sum += s.Length
	}
	return sum
}
