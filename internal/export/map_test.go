package export

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/chart"
	"linemap/internal/export/drawing"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// drawn keeps the maps that everyMap made, for the tests that follow.
var drawn = map[string][]byte{}

// everyMap calls f with the map of the bakery and of every demo site, on both
// papers.
func everyMap(t *testing.T, f func(t *testing.T, d demo, opt Options, pdf []byte)) {
	all := append([]demo{{"bakery", fixtureSite(), fixtureTables(), fixturePlan()}}, demos(t)...)
	for _, d := range all {
		t.Run(d.name, func(t *testing.T) {
			for _, opt := range []Options{{Paper: site.Letter, Units: unit.US}, {Paper: site.A4, Units: unit.Metric}} {
				key := d.name + string(opt.Paper)
				if drawn[key] == nil {
					pdf, err := Map(d.site, d.plan, opt)
					require.NoError(t, err)
					drawn[key] = pdf
				}
				f(t, d, opt, drawn[key])
			}
		})
	}
}

func TestMapIsTheSameTwice(t *testing.T) {
	everyMap(t, func(t *testing.T, d demo, opt Options, pdf []byte) {
		again, err := Map(d.site, d.plan, opt)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(pdf, again))
	})
	a, err := MapSVG(fixtureSite(), fixturePlan(), Options{})
	require.NoError(t, err)
	b, err := MapSVG(fixtureSite(), fixturePlan(), Options{})
	require.NoError(t, err)
	assert.True(t, bytes.Equal(a, b))
}

func TestMapIsCleanPDF(t *testing.T) {
	everyMap(t, func(t *testing.T, _ demo, _ Options, pdf []byte) {
		out := outside(t, pdf, "qpdf", func(f string) []string { return []string{"--check", f} })
		assert.Contains(t, out, "No syntax or stream encoding errors found")
	})
}

func TestMapTextIsFound(t *testing.T) {
	everyMap(t, func(t *testing.T, d demo, _ Options, pdf []byte) {
		text := outside(t, pdf, "pdftotext", func(f string) []string { return []string{"-raw", f, "-"} })
		alone := map[string]bool{}
		for _, page := range words(t, pdf) {
			for _, w := range page.Words {
				alone[w.Text] = true
			}
		}
		for _, n := range d.site.Network.Nodes {
			switch n.Kind {
			case network.KindAccess, network.KindFixture, network.KindOutlet:
				assert.Contains(t, text, n.Label)
			}
		}
		for _, sp := range d.site.Spots {
			assert.Contains(t, strings.ReplaceAll(text, "\n", " "), sp.Label)
		}
		for _, b := range d.plan.Blocks {
			for _, r := range b.Runs {
				assert.True(t, alone[strconv.Itoa(r.Number)], "the number of run %d", r.Number)
			}
		}
		for _, sf := range d.plan.Shortfalls {
			assert.Contains(t, text, sf.Name)
		}
		assert.NotContains(t, text, "\ufffd")
	})
}

func TestMapSaysWhatItIs(t *testing.T) {
	s := fixtureSite()
	s.Underlays = []site.Underlay{floorPlan(t, "")}
	pdf, err := Map(s, fixturePlan(), Options{Paper: site.A4})
	require.NoError(t, err)
	info := outside(t, pdf, "pdfinfo", func(f string) []string { return []string{f} })
	for _, want := range []string{"Rolling Pin Bakery, drains: map of the drains and runs", "P. Lanner", "Scale 1 in = ", "841.89 x 595.28"} {
		assert.Contains(t, info, want)
	}
	assert.Contains(t, string(pdf), "/Lang (en)")
	assert.Contains(t, string(pdf), "/Outlines")
	for _, l := range drawing.Layers() {
		// A layer's name is UTF-16 with its byte order mark (ISO 32000-1, 7.9.2.2).
		var name bytes.Buffer
		name.WriteString("\xfe\xff")
		for _, c := range string(l) {
			name.Write([]byte{0, byte(c)})
		}
		assert.Contains(t, string(pdf), "/Type /OCG /Name ("+name.String()+")")
	}
}

// A pipe of known length measures on the printed page as the stated scale says:
// read back from the drawing commands of the PDF. The pipe is the bakery's 60 ft
// of sewer, the only line of its weight.
func TestMapIsToScale(t *testing.T) {
	everyForm(t, func(t *testing.T, opt Options) {
		s := fixtureSite()
		s.Network.Pipes[0].Size = 12
		pdf, err := Map(s, fixturePlan(), opt)
		require.NoError(t, err)
		c, err := drawMap(s, fixturePlan(), opt.For(s))
		require.NoError(t, err)
		const weight = 1.8 // millimetres, of 10 in pipe and over
		longest := 0.0
		for _, l := range strokes(t, pdf, weight/25.4*72) {
			longest = max(longest, l)
		}
		ground := unit.Inches(longest / 72 * c.Ratio) // a point is 1/72 in
		assert.InDelta(t, 60, ground.Feet(), 0.05)
		assert.Contains(t, c.Scale, "1:"+strconv.FormatFloat(c.Ratio, 'f', -1, 64))
	})
}

// strokes returns the lengths in points of the straight lines that a PDF draws
// with a line width.
func strokes(t *testing.T, pdf []byte, width float64) []float64 {
	t.Helper()
	var found []float64
	for _, m := range regexp.MustCompile(`(?s)/FlateDecode[^>]*>>\s*stream\n(.*?)\nendstream`).FindAllSubmatch(pdf, -1) {
		r, err := zlib.NewReader(bytes.NewReader(m[1]))
		if err != nil {
			continue
		}
		content, err := io.ReadAll(r)
		if err != nil || !bytes.Contains(content, []byte(" w\n")) {
			continue
		}
		w, x, y := 0.0, 0.0, 0.0
		for _, line := range strings.Split(string(content), "\n") {
			var a, b float64
			switch f := strings.Fields(line); {
			case len(f) == 2 && f[1] == "w":
				_, err = fmt.Sscan(f[0], &w)
			case len(f) == 3 && (f[2] == "m" || f[2] == "l"):
				_, err = fmt.Sscan(f[0]+" "+f[1], &a, &b)
				if f[2] == "l" && math.Abs(w-width) < 0.01 {
					found = append(found, math.Hypot(a-x, b-y))
				}
				x, y = a, b
			}
			require.NoError(t, err)
		}
	}
	require.NotEmpty(t, found, "no line of the width")
	return found
}

// The whole map of a small site, in both systems of units.
func TestMapContent(t *testing.T) {
	for _, opt := range []Options{{Units: unit.US}, {Units: unit.Metric, Paper: site.A4}} {
		svg, err := MapSVG(fixtureSite(), fixturePlan(), opt)
		require.NoError(t, err)
		golden(t, "map-"+string(opt.Units)+".svg", svg)
	}
}

func TestMapOfNothing(t *testing.T) {
	for name, s := range map[string]*site.Site{"empty": {}, "one spot": {Spots: []site.Spot{{ID: "s", Label: "Yard"}}}} {
		t.Run(name, func(t *testing.T) {
			_, err := Map(s, nil, Options{})
			assert.NoError(t, err)
		})
	}
	s := fixtureSite()
	s.Spots[0].At.X = unit.Length(math.NaN())
	_, err := Map(s, fixturePlan(), Options{})
	assert.ErrorContains(t, err, "spot")
}

func TestMapTitle(t *testing.T) {
	assert.Equal(t, "Map of the drains and runs", mapTitle(&site.Site{}))
	assert.Equal(t, "Scale 1:200", mapSubject(&chart.Chart{Scale: "1:200"}))
}

func BenchmarkMap(b *testing.B) {
	for _, d := range demos(b) {
		b.Run(d.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Map(d.site, d.plan, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
