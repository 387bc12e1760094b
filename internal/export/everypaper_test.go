package export

import (
	"bytes"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/paper"
	"linemap/internal/site"
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
