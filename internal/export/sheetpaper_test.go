package export

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/flow"
	"linemap/internal/export/paper"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// everyForm calls f for each paper and system of units; under the race detector
// for each paper and each system once.
func everyForm(t *testing.T, f func(t *testing.T, opt Options)) {
	for _, p := range []site.Paper{site.Letter, site.A4} {
		for _, sys := range []unit.System{unit.US, unit.Metric} {
			if raced && (p == site.A4) != (sys == unit.Metric) {
				continue
			}
			t.Run(string(p)+" "+string(sys), func(t *testing.T) { f(t, Options{Paper: p, Units: sys}) })
		}
	}
}

// outside runs a program of the system on a file with the given content, and
// skips the test where the program is not installed.
func outside(t *testing.T, content []byte, name string, args func(file string) []string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Skipf("%s is not installed", name)
	}
	file := filepath.Join(t.TempDir(), "paper.pdf")
	require.NoError(t, os.WriteFile(file, content, 0o600))
	out, err := exec.Command(name, args(file)...).CombinedOutput()
	require.NoError(t, err, "%s: %s", name, out)
	return string(out)
}

func runSheet(t *testing.T, opt Options) []byte {
	t.Helper()
	out, err := RunSheet(fixtureSite(), fixtureTables(), fixturePlan(), opt)
	require.NoError(t, err)
	return out
}

func TestRunSheetIsTheSameTwice(t *testing.T) {
	everyForm(t, func(t *testing.T, opt Options) {
		assert.True(t, bytes.Equal(runSheet(t, opt), runSheet(t, opt)))
	})
}

func TestRunSheetIsCleanPDF(t *testing.T) {
	everyForm(t, func(t *testing.T, opt Options) {
		out := outside(t, runSheet(t, opt), "qpdf", func(f string) []string { return []string{"--check", f} })
		assert.Contains(t, out, "No syntax or stream encoding errors")
	})
}

func TestRunSheetSaysWhatItIs(t *testing.T) {
	out := outside(t, runSheet(t, Options{}), "pdfinfo", func(f string) []string { return []string{f} })
	assert.Regexp(t, `Title: +Rolling Pin Bakery, drains: run sheet`, out)
	assert.Regexp(t, `Author: +P\. Lanner`, out)
	assert.Regexp(t, `Page size: +612 x 792 pts \(letter\)`, out)
	a4 := outside(t, runSheet(t, Options{Paper: site.A4}), "pdfinfo", func(f string) []string { return []string{f} })
	assert.Regexp(t, `Page size: +595.\d+ x 841.\d+ pts \(A4\)`, a4)
	assert.Contains(t, string(runSheet(t, Options{})), "/Lang (en")
}

// The outline leads to every spot and every run.
func TestRunSheetHasAnOutline(t *testing.T) {
	out := outside(t, runSheet(t, Options{}), "qpdf", func(f string) []string {
		return []string{"--json", "--json-key=outlines", f}
	})
	for _, title := range []string{
		"The day", "Check lists and cautions", "Set-up 1: Yard", "Run 1, MH-1", "Run 2, MH-1", "Set-up 2: Fictive Lane", "Run 3, CO-3", "Not cleaned", "Notes",
	} {
		assert.Contains(t, out, `"title": "`+title+`"`)
	}
}

// What a crew looks for is found by a program that reads the paper's text.
func TestRunSheetTextIsFound(t *testing.T) {
	everyForm(t, func(t *testing.T, opt Options) {
		out := outside(t, runSheet(t, opt), "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })
		sh := newSheet(fixtureSite(), fixtureTables(), fixturePlan(), opt)
		pages := strings.Count(out, "\f")
		for _, want := range []string{
			"RUN SHEET", "Rolling Pin Bakery, drains", "revision B", "MH-1", "CO-3", "DOWNSTREAM", "UPSTREAM",
			"Confirm with a locator", sh.Reached, "Initials", "Night baking", "Follow the machine's manual",
			"Page 1 of", sh.Blocks[0].Runs[1].End, sh.Gaps[0].Pipe, sh.Gaps[1].Length,
		} {
			assert.True(t, strings.Contains(out, want), "no %q", want)
		}
		assert.Equal(t, pages, len(regexp.MustCompile(`Page \d+ of `).FindAllString(out, -1)))
		words := strings.Join(strings.Fields(out), " ")
		for _, c := range Cautions(opt.Units) {
			assert.True(t, strings.Contains(words, c.Head), "no %q", c.Head)
		}
		for _, l := range CheckLists(&fixtureSite().Rig, opt.Units) {
			assert.True(t, strings.Contains(words, l.Head), "no %q", l.Head)
		}
	})
}

// settle lays a sheet out and returns its pages.
func settle(s *site.Site, p *route.Plan, opt Options) (*press, []flow.Page) {
	opt = opt.For(s)
	press := newPress(paper.New(opt.Paper, false, paper.Meta{}))
	press.set(newSheet(s, fixtureTables(), p, opt))
	return press, press.pages.Pages()
}

// Runs stay whole: a day of many equal runs puts as many on each page as fit,
// and no page but the last of them is less than half full.
func TestRunsStayWhole(t *testing.T) {
	everyForm(t, func(t *testing.T, opt Options) {
		press, pages := settle(fixtureSite(), manyRuns(12), opt)
		foot := press.Body().H
		for i, page := range pages {
			for _, piece := range page {
				assert.LessOrEqual(t, piece.Y+piece.Height, foot+1e-9, "page %d", i+1)
			}
		}
	})
}

// A run longer than a page goes on under its own head, and every row of it is
// there.
func TestALongRunGoesOn(t *testing.T) {
	p := manyRuns(1)
	run := &p.Blocks[0].Runs[0]
	for i := range 200 {
		run.Fittings = append(run.Fittings, route.Fitting{At: run.End - unit.Inches(float64(200-i)/10), Pipe: "W1-CO3", What: "1/8 bend", Turn: unit.Degrees(45), Side: "left"})
	}
	out, err := RunSheet(fixtureSite(), fixtureTables(), p, Options{})
	require.NoError(t, err)
	text := outside(t, out, "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })
	assert.Equal(t, 200, strings.Count(text, "1/8 bend"))
	assert.Greater(t, strings.Count(text, "MH-1 (continued)"), 2)
	assert.Equal(t, 1, strings.Count(text, "Footage reached"))
}

// Whatever a document's texts hold, and whatever a plan names, the sheet is
// made, and nothing leaves the page.
func FuzzTexts(f *testing.F) {
	for _, text := range []string{
		"", " ", strings.Repeat("W", 4000), strings.Repeat("word ", 2000), "🚽🔧 emoji", "שלום עולם", "مرحبا بالعالم",
		"a\x00b\x1bc", "\xff\xfe broken", "line\nbreak\ttab", "\u202Ereversed", "𝔘𝔫𝔦𝔠𝔬𝔡𝔢", "\U0010FFFF\uFFFF\U00010000", "{nb}", "(paren \\ )",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		names, all := fixtureSite(), fixtureSite()
		rename(reflect.ValueOf(names).Elem(), text, false)
		rename(reflect.ValueOf(all).Elem(), text, true)
		plan := fixturePlan()
		rename(reflect.ValueOf(plan).Elem(), text, true)
		for _, c := range []struct {
			s *site.Site
			p *route.Plan
		}{{names, fixturePlan()}, {all, fixturePlan()}, {fixtureSite(), plan}} {
			press, pages := settle(c.s, c.p, Options{Units: unit.US, Paper: site.A4})
			for _, page := range pages {
				for _, piece := range page {
					require.LessOrEqual(t, piece.Y+piece.Height, press.Body().H+1e-9)
				}
			}
			press.draw()
			_, err := press.Bytes()
			require.NoError(t, err)
			_, err = PlanCSV(c.s, fixtureTables(), c.p, Options{})
			require.NoError(t, err)
		}
	})
}

// rename gives every text of a document another value: its keys too, or only
// what people write in it.
func rename(v reflect.Value, text string, keys bool) {
	switch v.Kind() {
	case reflect.String:
		if keys || v.Type() == reflect.TypeFor[string]() {
			v.SetString(text)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if !keys && v.Type().Field(i).Name == "ID" {
				continue
			}
			rename(v.Field(i), text, keys)
		}
	case reflect.Slice:
		for i := range v.Len() {
			rename(v.Index(i), text, keys)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			rename(v.Elem(), text, keys)
		}
	}
}

// Everything the papers themselves say has a glyph; a text of the document
// that has none is replaced, and a note says so.
func TestEveryRuneHasAGlyph(t *testing.T) {
	ruler, err := paper.NewRuler()
	require.NoError(t, err)
	everyForm(t, func(t *testing.T, opt Options) {
		sh := newSheet(fixtureSite(), fixtureTables(), fixturePlan(), opt)
		n := 0
		visit(reflect.ValueOf(sh).Elem(), func(s string) {
			for _, r := range s {
				assert.True(t, ruler.Has(r), "%q in %q", r, s)
				n++
			}
		})
		assert.Greater(t, n, 5000)
	})

	lost := func(label string) bool {
		s := fixtureSite()
		s.Network.Nodes[1].Label = label
		press, _ := settle(s, fixturePlan(), Options{})
		return press.lost
	}
	assert.False(t, lost("Büro 3, ½ in → Ø"))
	assert.True(t, lost("🚽"))

	s := fixtureSite()
	s.Network.Nodes[1].Label = "🚽 1"
	out, err := RunSheet(s, fixtureTables(), fixturePlan(), Options{})
	require.NoError(t, err)
	text := outside(t, out, "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })
	words := strings.Join(strings.Fields(text), " ")
	assert.True(t, strings.Contains(words, "? 1"))
	assert.True(t, strings.Contains(words, "A question mark stands for each"))
}

// visit reads every text of a value.
func visit(v reflect.Value, read func(string)) {
	switch v.Kind() {
	case reflect.String:
		read(v.String())
	case reflect.Struct:
		for i := range v.NumField() {
			visit(v.Field(i), read)
		}
	case reflect.Slice:
		for i := range v.Len() {
			visit(v.Index(i), read)
		}
	}
}

// An empty site and an empty plan still make a paper.
func TestEmptySheet(t *testing.T) {
	out, err := RunSheet(&site.Site{Network: network.Network{}}, fixtureTables(), &route.Plan{}, Options{})
	require.NoError(t, err)
	text := outside(t, out, "pdftotext", func(f string) []string { return []string{f, "-"} })
	assert.Contains(t, text, "Untitled job")
	assert.False(t, strings.ContainsFunc(text, func(r rune) bool { return r == unicode.ReplacementChar }))
}

func BenchmarkRunSheet60(b *testing.B) {
	s, t, p := fixtureSite(), fixtureTables(), manyRuns(60)
	for b.Loop() {
		if _, err := RunSheet(s, t, p, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// The first page of every demo's run sheet is whole: what to load, and the map of
// the spots with its scale; no page has anything off it or cut.
func TestTheDayIsOnThePage(t *testing.T) {
	for _, d := range demos(t) {
		t.Run(d.name, func(t *testing.T) {
			everyForm(t, func(t *testing.T, opt Options) {
				out, err := RunSheet(d.site, d.tables, d.plan, opt)
				require.NoError(t, err)
				text := outside(t, out, "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })
				pages := strings.Split(text, "\f")
				for _, want := range []string{"Hoses to load", "Nozzles to load", "Spots and hose on the ground", "1:"} {
					assert.Contains(t, pages[0], want)
				}
				for _, sp := range newSheet(d.site, d.tables, d.plan, opt).Stops {
					assert.Contains(t, pages[0], "Set-up "+strconv.Itoa(sp.SetUp))
				}
				assert.NotContains(t, strings.Join(pages[1:], ""), "to load")
				for i, page := range words(t, out) {
					checkPage(t, i+1, page)
				}
			})
		})
	}
}
