package export

import (
	"cmp"
	"encoding/xml"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/assets"
	"linemap/internal/export/paper"
	"linemap/internal/route"
	"linemap/internal/site"
)

// demo is a demo site with its plan.
type demo struct {
	name   string
	site   *site.Site
	tables *site.Tables
	plan   *route.Plan
}

// planned keeps what demos made, for the tests that follow.
var planned []demo

// demos plans the demo sites.
func demos(t testing.TB) []demo {
	t.Helper()
	if planned != nil {
		return planned
	}
	tables, err := site.LoadTables()
	require.NoError(t, err)
	files, err := assets.FS.ReadDir("demo")
	require.NoError(t, err)
	var all []demo
	for _, f := range files {
		if filepath.Ext(f.Name()) != site.Extension {
			continue
		}
		data, err := assets.FS.ReadFile("demo/" + f.Name())
		require.NoError(t, err)
		s, err := site.Decode(data)
		require.NoError(t, err)
		p, err := route.Solve(t.Context(), s, tables, route.Options{})
		require.NoError(t, err)
		all = append(all, demo{strings.TrimSuffix(f.Name(), site.Extension), s, tables, p})
	}
	require.NotEmpty(t, all)
	planned = all
	return all
}

// textPage is a page of words as pdftotext -bbox gives it, in points.
type textPage struct {
	Width  float64    `xml:"width,attr"`
	Height float64    `xml:"height,attr"`
	Words  []textWord `xml:"word"`
}

type textWord struct {
	XMin float64 `xml:"xMin,attr"`
	YMin float64 `xml:"yMin,attr"`
	XMax float64 `xml:"xMax,attr"`
	YMax float64 `xml:"yMax,attr"`
	Text string  `xml:",chardata"`
}

// ink is the word's box without the room above and below that its line keeps.
func (w textWord) ink() textWord {
	h := w.YMax - w.YMin
	w.YMin, w.YMax = w.YMin+0.25*h, w.YMax-0.2*h
	return w
}

// words reads where every word of a PDF stands.
func words(t *testing.T, pdf []byte) []textPage {
	out := outside(t, pdf, "pdftotext", func(f string) []string { return []string{"-bbox", f, "-"} })
	var doc struct {
		Pages []textPage `xml:"body>doc>page"`
	}
	d := xml.NewDecoder(strings.NewReader(out))
	d.Strict, d.Entity = false, xml.HTMLEntity
	require.NoError(t, d.Decode(&doc))
	require.NotEmpty(t, doc.Pages)
	return doc.Pages
}

// On every page of every demo, on both papers, in both systems of units: all
// text lies inside the margins, nothing is cut, no two words overlap, and no
// page but the last is all but empty.
func TestDemoPagesAreInOrder(t *testing.T) {
	for _, d := range demos(t) {
		t.Run(d.name, func(t *testing.T) {
			everyForm(t, func(t *testing.T, opt Options) {
				out, err := RunSheet(d.site, d.tables, d.plan, opt)
				require.NoError(t, err)
				pages := words(t, out)
				for i, page := range pages {
					checkPage(t, i+1, page)
					if i < len(pages)-1 {
						assert.Greater(t, lowest(page), 0.3*page.Height, "page %d is all but empty", i+1)
					}
				}
			})
		})
	}
}

func checkPage(t *testing.T, n int, page textPage) {
	t.Helper()
	const slack = 0.5
	margin := paper.Margin / paper.MMPerPoint
	slices.SortFunc(page.Words, func(a, b textWord) int { return cmp.Compare(a.YMin, b.YMin) })
	for i, w := range page.Words {
		if strings.Contains(w.Text, "…") {
			t.Errorf("page %d: %q is cut", n, w.Text)
		}
		a := w.ink()
		if a.XMin < margin-slack || a.XMax > page.Width-margin+slack {
			t.Errorf("page %d: %q leaves the margins", n, w.Text)
		}
		for _, v := range page.Words[i+1:] {
			if v.YMin > w.YMax {
				break
			}
			b := v.ink()
			across := math.Min(a.XMax, b.XMax) - math.Max(a.XMin, b.XMin)
			down := math.Min(a.YMax, b.YMax) - math.Max(a.YMin, b.YMin)
			if across > slack && down > slack {
				t.Errorf("page %d: %q and %q overlap", n, w.Text, v.Text)
			}
		}
	}
}

// lowest is the foot of the lowest word above the footer.
func lowest(page textPage) float64 {
	foot := page.Height - (paper.Margin+paper.FooterHeight)/paper.MMPerPoint
	low := 0.0
	for _, w := range page.Words {
		if w.YMax < foot {
			low = math.Max(low, w.YMax)
		}
	}
	return low
}

// The label of every access that a run uses, and of every pipe that it leaves,
// is found in the paper's text.
func TestDemoLabelsAreFound(t *testing.T) {
	for _, d := range demos(t) {
		t.Run(d.name, func(t *testing.T) {
			out, err := RunSheet(d.site, d.tables, d.plan, Options{})
			require.NoError(t, err)
			text := outside(t, out, "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })
			sh := newSheet(d.site, d.tables, d.plan, Options{})
			for _, b := range sh.Blocks {
				for _, r := range b.Runs {
					assert.True(t, strings.Contains(text, r.Access), "no access %s", r.Access)
					assert.True(t, strings.Contains(text, r.End), "no reading %s", r.End)
				}
			}
			for _, g := range sh.Gaps {
				assert.True(t, strings.Contains(text, g.Pipe), "no %s", g.Pipe)
			}
		})
	}
}

func BenchmarkDemoRunSheet(b *testing.B) {
	for _, d := range demos(b) {
		b.Run(d.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := RunSheet(d.site, d.tables, d.plan, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
