package main

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
)

// filledIn writes the results table of a site and fills some cells of its first
// rows in.
func filledIn(t *testing.T, path string, rows ...map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	code, out, stderr := call(t.Context(), "export", path, "--out", dir, "--only", "results")
	require.Equal(t, exitOK, code, stderr)
	name := filepath.Clean(out[:len(out)-1])
	f, err := os.Open(name)
	require.NoError(t, err)
	table, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.NoError(t, f.Close())
	for i, cells := range rows {
		for column, text := range cells {
			k := slices.Index(table[0], column)
			require.GreaterOrEqual(t, k, 0, column)
			table[i+1][k] = text
		}
	}
	f, err = os.Create(name)
	require.NoError(t, err)
	w := csv.NewWriter(f)
	w.Comma = ';'
	require.NoError(t, w.WriteAll(table))
	require.NoError(t, f.Close())
	return name
}

// TestResults takes a table in twice, the second time with another run: the
// site keeps both, and nothing else of it changes.
func TestResults(t *testing.T) {
	path := saved(t, "restaurant", func(s *site.Site) { s.Visits = nil })
	before, err := site.Open(path)
	require.NoError(t, err)
	first := filledIn(t, path, map[string]string{"reached_ft": "0", "found": "gate locked"})
	code, out, stderr := call(t.Context(), "results", path, first, "--date", "2026-03-18")
	require.Equal(t, exitOK, code, stderr)
	assert.Regexp(t, `^Visit of 2026-03-18: results of 1 of \d+ runs taken in\.\nNo result yet for run 2, .*\.\n$`, out)

	second := filledIn(t, path, nil, map[string]string{"reached_ft": "40,5", "deposit": "grease", "severity": "heavy", "minutes": "30"})
	code, _, stderr = call(t.Context(), "results", "--crew", "A and B", "--date", "2026-03-18", path, second)
	require.Equal(t, exitOK, code, stderr)
	after, err := site.Open(path)
	require.NoError(t, err)
	require.Len(t, after.Visits, 1)
	v := after.Visits[0]
	assert.Equal(t, "A and B", v.Crew)
	require.Len(t, v.Runs, 2)
	assert.Equal(t, "gate locked", v.Runs[0].Found)
	assert.InDelta(t, 40.5, v.Runs[1].Reached.Feet(), 0.0033)
	after.Visits = nil
	assert.Equal(t, before, after)
}

// TestResultsRefused leaves the site file as it is.
func TestResultsRefused(t *testing.T) {
	path := saved(t, "restaurant", func(s *site.Site) { s.Job.Date = "" })
	was, err := os.ReadFile(path)
	require.NoError(t, err)
	good := map[string]string{"reached_ft": "10"}
	bad := filledIn(t, path, map[string]string{"reached_ft": "far"})
	for _, c := range []struct {
		name string
		args []string
		code int
		says string
	}{
		{"no table", []string{path}, exitUsage, "name the site file and the filled-in table"},
		{"no day", []string{path, filledIn(t, path, good)}, exitUsage, "say with --date"},
		{"no such day", []string{path, bad, "--date", "2026-02-30"}, exitUsage, "write it like 2026-03-17"},
		{"no such table", []string{path, "none.csv", "--date", "2026-03-18"}, exitUnreadable, "none.csv"},
		{"a folder", []string{path, t.TempDir(), "--date", "2026-03-18"}, exitUnreadable, "directory"},
		{"a blank table", []string{path, filledIn(t, path), "--date", "2026-03-18"}, exitUnreadable, "no row of the table is filled in"},
		{"a bad cell", []string{path, bad, "--date", "2026-03-18"}, exitUnreadable, `line 2, column reached_ft: found "far"`},
		{"the site for a table", []string{path, path, "--date", "2026-03-18"}, exitUnreadable, "line 1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, out, stderr := call(t.Context(), append([]string{"results"}, c.args...)...)
			assert.Equal(t, c.code, code, stderr)
			assert.Contains(t, stderr, c.says)
			assert.Empty(t, out)
			is, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, was, is)
		})
	}
}
