package export

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/paper"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func newRand(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 1)) }

// isAPaper checks what holds of every paper: the same bytes twice, sound PDF,
// title, author, language, size and outline.
func isAPaper(t *testing.T, name string, make func(Options) ([]byte, error), outline []string) {
	t.Helper()
	everyForm(t, func(t *testing.T, opt Options) {
		one, err := make(opt)
		require.NoError(t, err)
		two, err := make(opt)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(one, two))
		assert.Contains(t, outside(t, one, "qpdf", func(f string) []string { return []string{"--check", f} }), "No syntax or stream encoding errors")
		info := outside(t, one, "pdfinfo", func(f string) []string { return []string{f} })
		assert.Regexp(t, `Title: +Rolling Pin Bakery, drains: `+name, info)
		assert.Regexp(t, `Author: +P\. Lanner`, info)
		assert.Contains(t, string(one), "/Lang (en")
		if opt.Paper == site.A4 {
			assert.Regexp(t, `Page size: .*\(A4\)`, info)
		} else {
			assert.Regexp(t, `Page size: .*\(letter\)`, info)
		}
		marks := outside(t, one, "qpdf", func(f string) []string { return []string{"--json", "--json-key=outlines", f} })
		for _, title := range outline {
			assert.Contains(t, marks, `"title": "`+title+`"`)
		}
		for i, page := range words(t, one) {
			checkPage(t, i+1, page)
		}
	})
}

// everyTextIsFound finds every text of a paper's content, word by word, in the
// paper's text, and a glyph for every character.
func everyTextIsFound(t *testing.T, pdf []byte, content any) {
	t.Helper()
	ruler, err := paper.NewRuler()
	require.NoError(t, err)
	text := outside(t, pdf, "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })
	n := 0
	visit(reflect.ValueOf(content).Elem(), func(s string) {
		for _, r := range s {
			assert.True(t, r == '\n' || ruler.Has(r), "%q in %q", r, s)
		}
		for _, w := range strings.Fields(s) {
			assert.Contains(t, text, w)
			n++
		}
	})
	assert.Greater(t, n, 100)
}

// complete is a demo with all that any paper asks for: prices, a place on Earth and
// a visit.
func complete(d demo) *site.Site {
	s := d.site.Clone()
	s.Geo = &site.Geo{Latitude: unit.Degrees(41.88), Longitude: unit.Degrees(-87.63)}
	if s.Prices.Currency == "" {
		s.Prices = site.Prices{Currency: "USD", Units: unit.US, CallOut: decimal.MustParse("95")}
	}
	if len(s.Visits) == 0 {
		visit := site.Visit{Date: s.Job.Date}
		blocks := d.plan.Blocks
		for i := range blocks[:max(1, len(blocks)-1)] { // the last is left for another day
			b := &blocks[i]
			for j := range b.Runs {
				r := b.Runs[j].Result(b, b.Runs[j].End)
				r.Found, r.Deposit, r.Condition = "Grease", network.Grease, site.WatchCondition
				visit.Runs = append(visit.Runs, r)
			}
		}
		s.Visits = []site.Visit{visit}
	}
	return s
}

// Every paper of every demo is sound PDF with all its fonts in it, and draws check
// boxes, ticks and arrows rather than setting them: no letter of a font is one, and
// none is missing.
func TestEveryPaperOfEveryDemo(t *testing.T) {
	for _, d := range demos(t) {
		for _, opt := range []Options{{Paper: site.Letter, Units: unit.US}, {Paper: site.A4, Units: unit.Metric}} {
			t.Run(d.name+" "+string(opt.Paper), func(t *testing.T) {
				paths, err := WritePapers(t.TempDir(), Papers(), complete(d), d.tables, d.plan, opt)
				require.NoError(t, err)
				n := 0
				for _, path := range paths {
					if filepath.Ext(path) != ".pdf" {
						continue
					}
					n++
					pdf, err := os.ReadFile(path)
					require.NoError(t, err)
					name := filepath.Base(path)
					assert.Contains(t, outside(t, pdf, "qpdf", func(f string) []string { return []string{"--check", f} }), "No syntax or stream encoding errors", name)
					for i, font := range strings.Split(outside(t, pdf, "pdffonts", func(f string) []string { return []string{f} }), "\n") {
						if i > 1 && font != "" { // below the head
							assert.Regexp(t, ` yes +\w+ +yes +\d+ +0 *$`, font, "%s: embedded, with its letters named", name)
						}
					}
					for _, r := range outside(t, pdf, "pdftotext", func(f string) []string { return []string{f, "-"} }) {
						drawn := unicode.In(r, signs)
						assert.False(t, drawn || r == unicode.ReplacementChar, "%s sets %q", name, r)
					}
				}
				assert.Equal(t, 5, n, "run sheet, map, notice, quote and report")
			})
		}
	}
}

// signs are the letters that are drawn rather than set: arrows, box drawing,
// squares and circles, check boxes, ticks.
var signs = &unicode.RangeTable{R16: []unicode.Range16{{Lo: 0x2190, Hi: 0x21ff, Stride: 1}, {Lo: 0x2500, Hi: 0x27bf, Stride: 1}}}

// Every letter in a string of the packages that write for a paper has a glyph, and
// so has every one in the demos.
func TestEveryLetterHasAGlyph(t *testing.T) {
	ruler, err := paper.NewRuler()
	require.NoError(t, err)
	seen := map[rune]string{}
	for _, dir := range []string{".", "chart", "linestrip", "quote", "../route", "../site", "../network", "../rig", "../unit"} {
		files, err := filepath.Glob(filepath.Join(dir, "*.go"))
		require.NoError(t, err)
		require.NotEmpty(t, files, dir)
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") || strings.HasPrefix(file, "csv") { // tables are no paper
				continue
			}
			tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
			require.NoError(t, err)
			ast.Inspect(tree, func(n ast.Node) bool {
				if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					text, err := strconv.Unquote(lit.Value)
					require.NoError(t, err)
					for _, r := range text {
						seen[r] = file
					}
				}
				return true
			})
		}
	}
	for _, d := range demos(t) {
		data, err := site.Encode(d.site)
		require.NoError(t, err)
		for _, r := range string(data) {
			seen[r] = d.name
		}
	}
	assert.Greater(t, len(seen), 90)
	for r, where := range seen {
		// The marks by which files of other programs begin are not printed.
		assert.True(t, r < ' ' || r == '\ufeff' || r == unicode.ReplacementChar || ruler.Has(r), "%q of %s has no glyph", r, where)
	}
}
