package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
)

// demos lists the demo sites.
func demos(t *testing.T) []string {
	t.Helper()
	paths, err := filepath.Glob(demo("*"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	return paths
}

// saved writes a changed demo site to a file of the test.
func saved(t *testing.T, name string, change func(*site.Site)) string {
	t.Helper()
	s, err := site.Open(demo(name))
	require.NoError(t, err)
	change(s)
	path := filepath.Join(t.TempDir(), "changed"+site.Extension)
	require.NoError(t, site.Save(path, s))
	return path
}

// namedPapers returns the papers that a summary names, each of which must be a
// file with something in it.
func namedPapers(t *testing.T, stdout string) []string {
	t.Helper()
	_, list, found := strings.Cut(stdout, "\nPapers:\n")
	require.True(t, found, stdout)
	var papers []string
	for line := range strings.Lines(list) {
		paper := strings.TrimSpace(line)
		info, err := os.Stat(paper)
		require.NoError(t, err)
		assert.NotZero(t, info.Size(), paper)
		papers = append(papers, paper)
	}
	return papers
}

func TestPlanOfEveryDemo(t *testing.T) {
	for _, path := range demos(t) {
		t.Run(filepath.Base(path), func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "made", "as needed")
			var stdout, stderr bytes.Buffer
			code := run(t.Context(), []string{"plan", path, "--out", dir}, &stdout, &stderr)
			require.Equal(t, exitOK, code, stderr.String())
			for _, head := range []string{"\nThe day\n", "Crew time", "Runs", "Water to jet", "\nWhere the trailer stands\n"} {
				assert.Contains(t, stdout.String(), head)
			}
			kinds := map[string]int{}
			for _, paper := range namedPapers(t, stdout.String()) {
				kinds[filepath.Ext(paper)]++
			}
			assert.Equal(t, 2, kinds[".pdf"], "run sheet and map")
			assert.NotZero(t, kinds[".csv"])
			assert.NotZero(t, kinds[".json"])
		})
	}
}

func TestPlanTwiceIsTheSame(t *testing.T) {
	first, second := t.TempDir(), t.TempDir()
	for _, dir := range []string{first, second} {
		code, _, stderr := call(t.Context(), "plan", "--out", dir, demo("restaurant"))
		require.Equal(t, exitOK, code, stderr)
	}
	names, err := os.ReadDir(first)
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, n := range names {
		a, err := os.ReadFile(filepath.Join(first, n.Name()))
		require.NoError(t, err)
		b, err := os.ReadFile(filepath.Join(second, n.Name()))
		require.NoError(t, err)
		assert.True(t, bytes.Equal(a, b), "%s differs from run to run", n.Name())
	}
}

func TestPlanJSON(t *testing.T) {
	for _, args := range [][]string{
		{"plan", "--json", demo("restaurant")},
		{"plan", demo("restaurant"), "--json", "--out", t.TempDir()},
	} {
		code, stdout, stderr := call(t.Context(), args...)
		require.Equal(t, exitOK, code, stderr)
		assert.Positive(t, cost(t, stdout))
	}
}

func TestPlanUnits(t *testing.T) {
	_, us, _ := call(t.Context(), "plan", "--units", "us", "--out", t.TempDir(), demo("restaurant"))
	_, metric, _ := call(t.Context(), "plan", demo("restaurant"), "--out", t.TempDir(), "--units", "metric")
	assert.Contains(t, us, " gal\n")
	assert.Contains(t, metric, " L\n")
}

func TestPlanPaper(t *testing.T) {
	papers := map[string]string{}
	for _, size := range []string{"letter", "a4"} {
		dir := t.TempDir()
		code, stdout, stderr := call(t.Context(), "plan", "--paper", size, "--out", dir, demo("restaurant"))
		require.Equal(t, exitOK, code, stderr)
		data, err := os.ReadFile(namedPapers(t, stdout)[0])
		require.NoError(t, err)
		papers[size] = string(data)
	}
	// Sizes in points of 1/72 in: ANSI/ASME Y14.1 (8.5 x 11 in) and ISO 216.
	assert.Contains(t, papers["letter"], "612.00 792.00")
	assert.Contains(t, papers["a4"], "595.28 841.89")
}

func TestPlanWithErrorsInTheSketch(t *testing.T) {
	path := saved(t, "restaurant", func(s *site.Site) {
		// A pipe that joins nothing.
		s.Network.Nodes = append(s.Network.Nodes,
			network.Node{ID: "stray-a", Kind: network.KindCap, At: network.Point{X: 500, Y: 500}},
			network.Node{ID: "stray-b", Kind: network.KindCap, At: network.Point{X: 510, Y: 500}})
		s.Network.Pipes = append(s.Network.Pipes, network.Pipe{
			ID: "stray", From: "stray-a", To: "stray-b", Size: 4, Material: network.PVC40, Class: network.Lateral,
		})
	})
	code, stdout, _ := call(t.Context(), "check", path)
	assert.Equal(t, exitSketch, code)
	assert.Contains(t, stdout, "error: ")
	assert.Regexp(t, `[1-9]\d* errors?, \d+ warnings?, \d+ pieces? of advice\.\n$`, stdout)

	dir := t.TempDir()
	code, stdout, stderr := call(t.Context(), "plan", path, "--out", dir)
	assert.Equal(t, exitSketch, code)
	assert.Contains(t, stderr, "the sketch has ")
	assert.NotEmpty(t, namedPapers(t, stdout))
}

func TestPlanOfNothing(t *testing.T) {
	path := saved(t, "restaurant", func(s *site.Site) {
		for i := range s.Spots {
			s.Spots[i].Uneven = true
		}
	})
	_, stdout, _ := call(t.Context(), "plan", path, "--out", t.TempDir())
	assert.Contains(t, stdout, "Not cleaned")
	assert.Contains(t, stdout, "No usable spot")
	assert.NotEmpty(t, namedPapers(t, stdout), "shortfalls are an answer: they belong on paper")
}

// The planner takes 64 usable spots; a site file may hold more.
func TestPlanThatCannotBeMade(t *testing.T) {
	path := saved(t, "restaurant", func(s *site.Site) {
		for i := range 65 {
			spot := s.Spots[0]
			spot.ID = site.SpotID(fmt.Sprint("more-", i))
			s.Spots = append(s.Spots, spot)
		}
	})
	code, stdout, stderr := call(t.Context(), "plan", path, "--json")
	assert.Equal(t, exitNoPlan, code)
	assert.Empty(t, stdout)
	assert.Contains(t, stderr, "CO-3: more than 63 usable spots are within reach of the hoses")
}

// TestPlanInterrupted stops the search before it has begun to improve: there
// must still be papers, and both streams say that this is not the best plan.
func TestPlanInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	code, stdout, stderr := call(ctx, "plan", demo("flats"), "--out", t.TempDir())
	assert.Equal(t, exitInterrupted, code, stderr)
	assert.Contains(t, stdout, "stopped")
	assert.Contains(t, stderr, "best plan found so far")
	assert.NotEmpty(t, namedPapers(t, stdout))
}

// TestPlanInterruptedStopsEarly sees by the plan, not by the clock, that the
// search broke off: what it found is dearer than what the whole search finds.
func TestPlanInterruptedStopsEarly(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	code, stopped, stderr := call(ctx, "plan", demo("school"), "--json")
	assert.Equal(t, exitInterrupted, code)
	// A slow machine may have told its progress before.
	assert.Regexp(t, `(^|\n)linemap: stopped: [^\n]+\n$`, stderr)
	code, whole, _ := call(t.Context(), "plan", demo("school"), "--json")
	assert.Equal(t, exitOK, code)
	assert.Greater(t, cost(t, stopped), cost(t, whole))
}

// cost reads the crew minutes of a plan printed as JSON, which must be all
// that was printed.
func cost(t *testing.T, stdout string) float64 {
	t.Helper()
	var doc struct {
		Plan struct {
			Blocks []struct{ Runs []json.RawMessage }
			Cost   float64 `json:"cost_minutes"`
		}
	}
	dec := json.NewDecoder(strings.NewReader(stdout))
	require.NoError(t, dec.Decode(&doc))
	_, err := dec.Token()
	assert.ErrorIs(t, err, io.EOF, "more than the plan on stdout")
	assert.NotEmpty(t, doc.Plan.Blocks)
	return doc.Plan.Cost
}
