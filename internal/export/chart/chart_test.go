package chart

import (
	"context"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/drawing"
	"linemap/internal/export/paper"
	"linemap/internal/network"
	"linemap/internal/route"
	generated "linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// job is a site with its plan.
type job struct {
	name string
	site *site.Site
	plan *route.Plan
}

// planned keeps what jobs made, for the tests that follow.
var planned []job

// jobs are the hand-made shop, all demo sites, and two large ones.
func jobs(t testing.TB) []job {
	t.Helper()
	if planned != nil {
		return planned
	}
	all := []job{{"shop", shop(), shopPlan()}, {"shop without a plan", shop(), nil}}
	tables, err := site.LoadTables()
	require.NoError(t, err)
	add := func(name string, s *site.Site) {
		p, err := route.Solve(context.Background(), s, tables, route.Options{})
		require.NoError(t, err)
		all = append(all, job{name, s, p})
	}
	names, err := site.Demos()
	require.NoError(t, err)
	for _, name := range names {
		s, err := site.Demo(name)
		require.NoError(t, err)
		add(name, s)
	}
	if !raced {
		add("building of 200 pipes", generated.Building(1, 200))
		add("streets of 200 pipes", generated.Streets(1, 200))
	}
	planned = all
	return all
}

// papers are the choices of paper and units.
var papers = []Options{
	{Paper: site.Letter, Units: unit.US, Date: "Tue, Mar 17, 2026", Safety: "Keep clear. " + strings.Repeat("Safety first. ", 40)},
	{Paper: site.A4, Units: unit.Metric, Date: "Tue 17 Mar 2026"},
}

// drawn keeps the maps that each made, by job and paper.
var drawn = map[string]*Chart{}

// each looks at the map of every job on every paper.
func each(t *testing.T, check func(t *testing.T, j job, opt Options, c *Chart)) {
	for _, j := range jobs(t) {
		for _, opt := range papers {
			name := fmt.Sprintf("%s on %s", j.name, opt.Paper)
			t.Run(name, func(t *testing.T) {
				if drawn[name] == nil {
					c, err := Draw(j.site, j.plan, opt)
					require.NoError(t, err)
					drawn[name] = c
				}
				check(t, j, opt, drawn[name])
			})
		}
	}
}

func TestNothingOverlaps(t *testing.T) {
	each(t, func(t *testing.T, _ job, _ Options, c *Chart) {
		for _, sheet := range c.Sheets {
			for i := range sheet.Panels {
				assert.Empty(t, overlaps(&sheet.Panels[i]), sheet.Panels[i].Name)
			}
		}
	})
}

func TestNothingIsClippedOrTiny(t *testing.T) {
	each(t, func(t *testing.T, _ job, opt Options, c *Chart) {
		size := paper.SizeOf(opt.Paper, true)
		for _, p := range panels(c) {
			in := drawing.Box{W: size.W, H: size.H}.Inset(paper.Margin - 0.5)
			if p.Clip != nil {
				in = *p.Clip
			}
			for _, piece := range pieces(&p) {
				if piece.turn == 0 {
					assert.GreaterOrEqual(t, piece.centre.X-piece.w/2, in.X-0.01, "%q", piece.text)
					assert.LessOrEqual(t, piece.centre.X+piece.w/2, in.Right()+0.01, "%q", piece.text)
					assert.GreaterOrEqual(t, piece.centre.Y-piece.h/2, in.Y-0.01, "%q", piece.text)
					assert.LessOrEqual(t, piece.centre.Y+piece.h/2, in.Bottom()+0.01, "%q", piece.text)
				}
			}
			for _, it := range p.Items {
				if text, ok := it.Shape.(drawing.Text); ok {
					assert.GreaterOrEqual(t, text.Style.Pt, paper.MinPoint, text.S)
				}
			}
		}
	})
}

func TestEveryLabelIsThere(t *testing.T) {
	each(t, func(t *testing.T, j job, _ Options, c *Chart) {
		said := texts(c)
		all := strings.Join(said, "\n")
		for _, n := range j.site.Network.Nodes {
			switch n.Kind {
			case network.KindAccess, network.KindFixture, network.KindOutlet:
				assert.Contains(t, all, n.Label)
			}
		}
		for _, s := range j.site.Spots {
			assert.Contains(t, all, s.Label)
		}
		for _, w := range j.site.Water {
			assert.Contains(t, all, w.Label)
		}
		if j.plan == nil {
			return
		}
		for _, b := range j.plan.Blocks {
			for _, r := range b.Runs {
				assert.Contains(t, said, strconv.Itoa(r.Number), "run number")
			}
		}
		for i := range j.plan.Shortfalls {
			assert.Contains(t, said, tag(i), "letter of a shortfall")
		}
	})
}

// What the page says its scale is, is what it is drawn to: the paper length of
// every pipe, times the scale's denominator, is its length on the ground.
func TestScale(t *testing.T) {
	each(t, func(t *testing.T, j job, opt Options, c *Chart) {
		assert.Equal(t, scaleText(opt.Units, c.Ratio), c.Scale)
		assert.Contains(t, texts(c), c.Scale)
		main := c.Sheets[0].Panels[0].Frame
		assert.InEpsilon(t, c.Ratio, 1000/main.Scale, 1e-9)
		a, b := main.To(drawing.Point{}), main.To(drawing.Point{X: 30.48})
		assert.InDelta(t, 30.48*1000/c.Ratio, b.X-a.X, 1e-6, "100 ft")
	})
}

func TestScales(t *testing.T) {
	for _, sys := range []unit.System{unit.US, unit.Metric} {
		all := scales(sys)
		for i := 1; i < len(all); i++ {
			assert.Greater(t, all[i], all[i-1])
			assert.LessOrEqual(t, all[i], 2*all[i-1]+1e-9, "no gap in the scales on offer")
		}
	}
	// An inch holds twelve twelfths: 1 in to 20 ft is 1:240.
	assert.Equal(t, "1 in = 20 ft (1:240)", scaleText(unit.US, 240))
	assert.Equal(t, "1:250", scaleText(unit.Metric, 250))
	half, number, name := bar(unit.US, 240, 45)
	assert.Equal(t, "ft", name)
	assert.InDelta(t, 10, number, 0)
	assert.InDelta(t, 10, half.Feet(), 1e-9)
}

func TestTags(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 52: "BA", 701: "ZZ", 702: "AAA"} {
		assert.Equal(t, want, tag(i))
	}
}

func TestLettered(t *testing.T) {
	for _, c := range [][3]string{
		{"CO", "CO-3", "CO-3"},
		{"CO", "Kitchen", "CO Kitchen"},
		{"CO", "COURT", "CO COURT"},
		{"MH", "4", "MH 4"},
		{"VTR", "VTR 2", "VTR 2"},
		{"CO", "FD-1", "FD-1"},
		{"BWV", "", "BWV"},
		{"", "Sink", "Sink"},
	} {
		assert.Equal(t, c[2], lettered(c[0], c[1]))
	}
}

func TestSpans(t *testing.T) {
	for want, n := range map[string][]int{
		"": nil, "4": {4}, "4, 5": {4, 5}, "4 to 6": {4, 5, 6}, "2, 11, 15 to 18, 20, 21": {2, 11, 15, 16, 17, 18, 20, 21},
	} {
		assert.Equal(t, want, spans(n))
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, j := range jobs(b) {
		b.Run(j.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Draw(j.site, j.plan, papers[0]); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
