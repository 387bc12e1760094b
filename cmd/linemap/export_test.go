package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// onEarth gives a site its place.
func onEarth(s *site.Site) {
	s.Geo = &site.Geo{Latitude: unit.Degrees(41.88), Longitude: unit.Degrees(-87.63), Bearing: unit.Degrees(10)}
}

// written lists the files of a folder.
func written(t *testing.T, dir string) []string {
	t.Helper()
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	var names []string
	for _, f := range files {
		names = append(names, filepath.Join(dir, f.Name()))
	}
	return names
}

// TestExportOnly writes what was asked for, and says what it wrote.
func TestExportOnly(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	code, out, stderr := call(t.Context(), "export", saved(t, "restaurant", onEarth), "--out", dir, "--only", "geojson,csv", "--units", "metric")
	require.Equal(t, exitOK, code, stderr)
	assert.ElementsMatch(t, written(t, dir), strings.Split(strings.TrimSpace(out), "\n"))
	assert.Len(t, written(t, dir), 2)
	for i, end := range []string{"-plan.csv", "-map.geojson"} {
		name := strings.Split(out, "\n")[i]
		assert.True(t, strings.HasSuffix(name, end), name)
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Contains(t, string(data), "_m", "metric")
	}
}

// TestExportAll writes all that the site can give, tells what it cannot, and
// has the usual papers as plan writes them.
func TestExportAll(t *testing.T) {
	all, plan := t.TempDir(), t.TempDir()
	path := demo("restaurant")
	code, out, stderr := call(t.Context(), "export", path, "--out", all)
	require.Equal(t, exitOK, code, stderr)
	assert.ElementsMatch(t, written(t, all), strings.Split(strings.TrimSpace(out), "\n"))
	s, err := site.Open(path)
	require.NoError(t, err)
	lacking := 0
	for _, p := range export.Papers() {
		if err := p.Lacks(s); err != nil {
			lacking++
			assert.Contains(t, stderr, "linemap: no "+p.Key+": "+err.Error()+"\n")
		}
	}
	assert.Positive(t, lacking)
	assert.GreaterOrEqual(t, len(written(t, all)), len(export.Papers())-lacking)

	code, _, stderr = call(t.Context(), "plan", path, "--out", plan)
	require.Equal(t, exitOK, code, stderr)
	usual := written(t, plan)
	assert.Len(t, usual, len(export.UsualPapers()))
	for _, name := range usual {
		want, err := os.ReadFile(name)
		require.NoError(t, err)
		got, err := os.ReadFile(filepath.Join(all, filepath.Base(name)))
		require.NoError(t, err)
		assert.Equal(t, want, got, name)
	}
}

// TestExportReadsPicturesBesideTheSite finds the floor plan from the folder of
// the site's file, wherever the program runs.
func TestExportReadsPicturesBesideTheSite(t *testing.T) {
	path := saved(t, "restaurant", func(s *site.Site) {
		s.Underlays = []site.Underlay{{ID: "u", Label: "Kitchen", Scale: unit.Metres(1), File: "plan.png", Level: s.Network.Nodes[0].Level}}
	})
	missing, there := t.TempDir(), t.TempDir()
	code, _, stderr := call(t.Context(), "export", path, "--out", missing, "--only", "svg")
	require.Equal(t, exitOK, code, stderr)
	data, err := os.ReadFile(written(t, missing)[0])
	require.NoError(t, err)
	assert.NotContains(t, string(data), "<image")

	require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(path), "plan.png"), grey(t, 40, 40), 0o600))
	code, _, stderr = call(t.Context(), "export", path, "--out", there, "--only", "svg")
	require.Equal(t, exitOK, code, stderr)
	data, err = os.ReadFile(written(t, there)[0])
	require.NoError(t, err)
	assert.Contains(t, string(data), `<g class="floor-plan">`)
	assert.Contains(t, string(data), "<image")
}

// grey is a picture of one shade.
func grey(t *testing.T, w, h int) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = 90
	}
	var out bytes.Buffer
	require.NoError(t, png.Encode(&out, m))
	return out.Bytes()
}
