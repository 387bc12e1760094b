package strip

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/export/drawing"
)

func TestSpan(t *testing.T) {
	day := whole(4*time.Hour, 100, 800)
	for _, c := range []struct {
		name string
		span span
		t    time.Duration
		x    float64
	}{
		{"start", day, 0, 100},
		{"middle", day, 2 * time.Hour, 500},
		{"end", day, 4 * time.Hour, 900},
		{"twice as close about the middle", day.zoom(500, 2, 4*time.Hour), 2 * time.Hour, 500},
		{"twice as close, an hour on", day.zoom(500, 2, 4*time.Hour), 3 * time.Hour, 900},
		{"about the left edge", day.zoom(100, 4, 4*time.Hour), time.Hour, 900},
		{"no farther than the whole", day.zoom(500, 0.5, 4*time.Hour), 4 * time.Hour, 900},
		{"scrolled to the left", day.zoom(100, 4, 4*time.Hour).scroll(-800, 4*time.Hour), 2 * time.Hour, 900},
		{"scrolled no farther than the end", day.zoom(100, 4, 4*time.Hour).scroll(-9e6, 4*time.Hour), 4 * time.Hour, 900},
		{"scrolled no farther than the start", day.zoom(500, 4, 4*time.Hour).scroll(9e6, 4*time.Hour), 0, 100},
		{"a later time shown", day.zoom(100, 4, 4*time.Hour).show(2*time.Hour, 4*time.Hour), 2 * time.Hour, 820},
		{"an earlier time shown", day.zoom(900, 4, 4*time.Hour).show(2*time.Hour, 4*time.Hour), 2 * time.Hour, 180},
		{"a time in view stays", day.zoom(100, 4, 4*time.Hour).show(30*time.Minute, 4*time.Hour), time.Hour, 900},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.InDelta(t, c.x, c.span.x(c.t), 0.01)
			assert.InDelta(t, c.t.Seconds(), c.span.time(c.x).Seconds(), 0.01)
		})
	}
	assert.Equal(t, closest, day.zoom(300, 1e9, 4*time.Hour).shown)
	assert.Equal(t, time.Minute, whole(time.Minute, 0, 10).zoom(3, 50, time.Minute).shown, "a day shorter than the closest look")
}

// However it is zoomed and scrolled, a span stays within its day.
func TestSpanStaysInDay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ends := time.Duration(rapid.Int64Range(0, int64(90*time.Hour)).Draw(t, "ends"))
		s := whole(ends, 80, rapid.Float64Range(0, 2000).Draw(t, "width"))
		for range rapid.IntRange(1, 30).Draw(t, "steps") {
			switch rapid.IntRange(0, 2).Draw(t, "step") {
			case 0:
				s = s.zoom(rapid.Float64Range(-100, 3000).Draw(t, "x"), rapid.Float64Range(0, 10).Draw(t, "times"), ends)
			case 1:
				s = s.scroll(rapid.Float64Range(-4000, 4000).Draw(t, "dx"), ends)
			case 2:
				to := time.Duration(rapid.Int64Range(0, int64(max(ends, 1))).Draw(t, "time"))
				s = s.show(to, ends)
				require.True(t, s.from <= to && to <= s.to())
			}
			require.GreaterOrEqual(t, s.from, time.Duration(0))
			require.LessOrEqual(t, s.to(), max(ends, 1))
			require.Positive(t, s.shown)
		}
	})
}

func TestRows(t *testing.T) {
	for _, c := range []struct{ height, line float64 }{{150, 15}, {150, 12}, {400, 15}, {leastHeight(28), 28}, {leastHeight(15), 15}} {
		r := stack(c.height, c.line)
		all := []band{r.clock, r.stays, r.runs, r.crew, r.tank, r.words}
		for i := 1; i < len(all); i++ {
			assert.GreaterOrEqual(t, all[i].y, all[i-1].bottom(), "row %d of %v", i, c)
			assert.GreaterOrEqual(t, all[i].h, c.line, "row %d of %v", i, c)
		}
		assert.InDelta(t, c.height, r.words.bottom(), 1e-9, "%v", c)
	}
	assert.LessOrEqual(t, leastHeight(15), 150.0, "the strip fits where the window gives it least")
}

func TestHatch(t *testing.T) {
	b := drawing.Box{X: 11, Y: 20, W: 30, H: 10}
	assert.Empty(t, plain.lines(b, 5))
	assert.Empty(t, rising.lines(drawing.Box{}, 5))
	for _, h := range []hatch{rising, falling, upright, level} {
		lines := h.lines(b, 5)
		assert.NotEmpty(t, lines)
		for _, l := range lines {
			for _, p := range l {
				assert.True(t, p.X >= b.X-1e-9 && p.X <= b.Right()+1e-9 && p.Y >= b.Y-1e-9 && p.Y <= b.Bottom()+1e-9, "%v in %v", p, b)
			}
			dx, dy := l[1].X-l[0].X, l[1].Y-l[0].Y
			switch h {
			case rising:
				assert.InDelta(t, dx, -dy, 1e-9)
			case falling:
				assert.InDelta(t, dx, dy, 1e-9)
			case upright:
				assert.Zero(t, dx)
			case level:
				assert.Zero(t, dy)
			}
		}
	}
}
