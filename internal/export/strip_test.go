package export

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/drawing"
	"linemap/internal/export/linestrip"
	"linemap/internal/export/paper"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// stripOf draws the strip of a run as it stands when it has a page to itself.
func stripOf(p *press, r *sheetRun) (drawing.List, float64) {
	rows := make([]stripRow, len(r.Way))
	for i, row := range r.Way {
		rows[i] = p.stripRow(row)
	}
	h := p.strip(r.Way, r.line).Height
	return stripList(rows, r.line, h), h
}

// everyStrip calls f for each run of the demos and of random plans.
func everyStrip(t *testing.T, opt Options, f func(p *press, planned *route.Run, worded *sheetRun)) {
	t.Helper()
	days := slices.Clone(demos(t))
	tables, err := site.LoadTables()
	require.NoError(t, err)
	for i := range uint64(12) {
		s := sample.Random(rand.New(rand.NewPCG(i, 11)), 14)
		p, err := route.Solve(t.Context(), s, tables, route.Options{})
		require.NoError(t, err)
		days = append(days, demo{"random", s, tables, p})
	}
	n := 0
	for _, d := range days {
		opt := opt.For(d.site)
		press := newPress(paper.New(opt.Paper, false, paper.Meta{}))
		sh := newSheet(d.site, d.tables, d.plan, opt)
		for b := range sh.Blocks {
			for r := range sh.Blocks[b].Runs {
				f(press, &d.plan.Blocks[b].Runs[r], &sh.Blocks[b].Runs[r])
				n++
			}
		}
	}
	require.Greater(t, n, 100)
}

// block is what a text or a sign covers on the paper.
type block struct {
	what                   string
	left, top, right, foot float64
}

// blocks are the texts of a strip, and the frames of its signs and boxes.
func blocks(l drawing.List) (texts, all []block) {
	for _, it := range l.Items {
		switch s := it.Shape.(type) {
		case drawing.Text:
			em := s.Style.Pt * paper.MMPerPoint
			b := block{s.S, s.At.X, -s.At.Y - paper.CapHeight*em, s.At.X + s.Wide, -s.At.Y + paper.Descent*em}
			if s.Style.Align == paper.Right {
				b.left, b.right = s.At.X-s.Wide, s.At.X
			}
			texts = append(texts, b)
		case drawing.Path:
			if s.Closed && len(s.Points) == 4 && s.Points[1].X-s.Points[0].X > linestrip.SignSize-0.01 {
				all = append(all, block{"sign", s.Points[0].X, -s.Points[0].Y, s.Points[2].X, -s.Points[2].Y})
			}
		case drawing.Mark:
			if s.Symbol == drawing.Square && s.Size == boxSide {
				x, y := s.At.X+s.Off.X, -s.At.Y+s.Off.Y
				all = append(all, block{"box", x - boxSide/2, y - boxSide/2, x + boxSide/2, y + boxSide/2})
			}
		}
	}
	return texts, append(all, texts...)
}

func assertApart(t *testing.T, l drawing.List, height, width float64) {
	t.Helper()
	texts, all := blocks(l)
	require.GreaterOrEqual(t, len(texts), 4)
	for i, a := range all {
		assert.True(t, a.left >= 0 && a.right <= width+1e-6 && a.top >= -1e-6 && a.foot <= height+0.3, "%q leaves the strip", a.what)
		for _, b := range all[i+1:] {
			across := min(a.right, b.right) - max(a.left, b.left)
			down := min(a.foot, b.foot) - max(a.top, b.top)
			assert.False(t, across > 0 && down > 0.05, "%q and %q overlap by %.2f x %.2f mm", a.what, b.what, across, down)
		}
	}
}

// No two texts of a strip overlap, nor a text and a sign, and all stay on it.
func TestStripTextsAreApart(t *testing.T) {
	everyForm(t, func(t *testing.T, opt Options) {
		everyStrip(t, opt, func(p *press, _ *route.Run, r *sheetRun) {
			l, h := stripOf(p, r)
			assertApart(t, l, h, p.width)
		})
	})
}

// Fittings that are closer than a line of text is high, on a run of 300 ft.
func TestStripOfCloseFittings(t *testing.T) {
	everyForm(t, func(t *testing.T, opt Options) {
		plan := manyRuns(1)
		run := &plan.Blocks[0].Runs[0]
		run.End = unit.Feet(322.5)
		run.Path[2].To = run.End
		for i := range 12 {
			run.Fittings = append(run.Fittings, route.Fitting{
				At: unit.Feet(150 + 0.3*float64(i)), Pipe: "W1-CO3", Turn: unit.Degrees(22.5), Side: "left",
				What: "combination wye and 1/8 bend with a name that goes on for two lines, out of the branch", Confirm: i%2 == 0,
			})
		}
		opt = opt.For(fixtureSite())
		p := newPress(paper.New(opt.Paper, false, paper.Meta{}))
		sh := newSheet(fixtureSite(), fixtureTables(), plan, opt)
		l, h := stripOf(p, &sh.Blocks[0].Runs[0])
		assertApart(t, l, h, p.width)
		assert.Less(t, h, p.Body().H, "it fits on a page")
	})
}

// On the drawing, the marks of fittings and the ends of pipes lie to scale: as
// far apart on the paper as by the hose counter.
func TestStripsAreToScale(t *testing.T) {
	everyStrip(t, Options{}, func(p *press, r *route.Run, worded *sheetRun) {
		l, h := stripOf(p, worded)
		var marks, ends []float64
		for _, it := range l.Items {
			switch s := it.Shape.(type) {
			case drawing.Mark:
				if s.At.X == linestrip.RailX && (s.Size == 1.8 || s.Symbol == drawing.Diamond) {
					marks = append(marks, -s.At.Y)
				}
			case drawing.Path:
				if len(s.Points) == 4 && s.Closed && s.Fill != nil && *s.Fill == drawing.Faint {
					ends = append(ends, -s.Points[0].Y, -s.Points[2].Y)
				}
			}
		}
		require.Len(t, marks, len(r.Fittings), "a mark for each fitting")
		scale := worded.line.Scale(h)
		foot := scale.Y(r.End)
		at := func(reading unit.Length) float64 { return foot - scale.PerMetre*(r.End-reading).Metres() }
		slices.SortFunc(marks, cmp.Compare[float64])
		for i, f := range r.Fittings {
			assert.InDelta(t, at(f.At), marks[i], 1e-6, "fitting at %v m", f.At)
		}
		var cleaned []float64
		for _, leg := range r.Path {
			if leg.Cleaned {
				cleaned = append(cleaned, at(leg.From), at(leg.To))
			}
		}
		assert.InDeltaSlice(t, cleaned, ends, 1e-6)
		assert.Greater(t, foot-at(r.Lay), 0.83*(foot-scale.Y(0)), "the pipe has the room")
	})
}

// readingsOf are all readings of a plan in the order of its strips.
func readingsOf(p *route.Plan) (all []unit.Length) {
	for _, r := range p.Runs() {
		at := []unit.Length{r.Lay, r.End}
		for _, f := range r.Fittings {
			at = append(at, f.At)
		}
		for _, leg := range r.Path {
			if !slices.ContainsFunc(at[2:], func(v unit.Length) bool { return math.Abs(float64(v-leg.From)) < samePlace }) &&
				math.Abs(float64(leg.From-r.Lay)) > samePlace {
				at = append(at, leg.From)
			}
		}
		if mark := r.Lay + unit.Feet(10); mark < r.End {
			at = append(at, mark)
		}
		slices.Sort(at)
		all = append(all, at...)
	}
	return all
}

// The readings that a program reads in the paper's left column are the plan's,
// in order, to half an inch or half a centimetre.
func TestPrintedReadingsAreThePlans(t *testing.T) {
	for _, d := range demos(t) {
		t.Run(d.name, func(t *testing.T) {
			everyForm(t, func(t *testing.T, opt Options) {
				out, err := RunSheet(d.site, d.tables, d.plan, opt)
				require.NoError(t, err)
				edge := (paper.Margin + readingEnd) / paper.MMPerPoint
				grain := unit.Inches(1)
				last := "in"
				if opt.Units == unit.Metric {
					grain, last = unit.Metres(0.01), "m"
				}
				var got []string
				for _, page := range words(t, out) {
					slices.SortFunc(page.Words, func(a, b textWord) int {
						return cmp.Or(cmp.Compare(math.Round(a.YMin), math.Round(b.YMin)), cmp.Compare(a.XMin, b.XMin))
					})
					for i, w := range page.Words {
						if w.Text != last || math.Abs(w.XMax-edge) > 0.4 {
							continue
						}
						n := map[string]int{"in": 3, "m": 1}[last]
						said := make([]string, 0, 4)
						for _, v := range page.Words[i-n : i+1] {
							said = append(said, v.Text)
						}
						got = append(got, strings.Join(said, " "))
					}
				}
				want := readingsOf(d.plan)
				require.Len(t, got, len(want))
				for i := range want {
					assert.LessOrEqual(t, math.Abs(float64(parseReading(t, got[i])-want[i])), float64(grain)/2+1e-9, "%s for %v m", got[i], want[i])
				}
			})
		})
	}
}

// The sheet ends with room for what changed, and every run has its blanks.
func TestSheetHasItsBlanks(t *testing.T) {
	everyForm(t, func(t *testing.T, opt Options) {
		out := outside(t, runSheet(t, opt), "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })
		for _, blank := range []string{"Passes made", "Found", "Time  "} {
			assert.GreaterOrEqual(t, strings.Count(out, blank), 3, blank)
		}
		pages := strings.Split(strings.TrimRight(out, "\f\n"), "\f")
		assert.Contains(t, pages[len(pages)-1], "What changed on site")
	})
}

// The sink's branch joins the fixture's main at C1, 30 ft of drain from it: too
// far to spit. Nearer, the strip and the warning name it.
func TestSheetNamesWhatBlowsBack(t *testing.T) {
	near := func(feet float64) *sheetRun {
		s := fixtureSite()
		for i := range s.Network.Pipes {
			if p := &s.Network.Pipes[i]; p.ID == "C1-B1" || p.ID == "B1-C1" || p.ID == "B1-F1" || p.ID == "F1-B1" {
				length := unit.Feet(feet)
				p.Length = &length
			}
		}
		sh := newSheet(s, fixtureTables(), fixturePlan(), Options{})
		return &sh.Blocks[0].Runs[1]
	}
	assert.NotContains(t, strings.Join(near(6).Warnings, "\n"), "Blow-back")
	r := near(4)
	assert.Contains(t, strings.Join(r.Warnings, "\n"), "Blow-back risk: Sink. Lids down, traps full, towels.")
	for _, row := range r.Way {
		if row.At == "73 ft 0 in" {
			assert.Equal(t, "Sink", row.Near)
		} else {
			assert.Empty(t, row.Near)
		}
	}
	assert.Equal(t, []unit.Length{unit.Feet(73)}, r.line.Near)
}
