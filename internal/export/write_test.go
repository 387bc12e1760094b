package export

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
	"linemap/internal/unit"
)

func TestWritePapers(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "not", "there", "yet")
	s, tables := fixtureSite(), fixtureTables()
	paths, err := WritePapers(dir, UsualPapers(), s, tables, fixturePlan(), Options{})
	require.NoError(t, err)
	var want []string
	for _, name := range []string{"run-sheet.pdf", "map.pdf", "map.svg", "plan.csv", "plan.json"} {
		want = append(want, filepath.Join(dir, "rolling-pin-bakery-drains-"+name))
	}
	assert.Equal(t, want, paths)

	first := map[string][]byte{}
	for _, path := range paths {
		first[path], err = os.ReadFile(path)
		require.NoError(t, err)
		assert.NotEmpty(t, first[path])
	}
	again, err := WritePapers(dir, UsualPapers(), s, tables, fixturePlan(), Options{})
	require.NoError(t, err)
	for _, path := range again {
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(first[path], data), "%s changed", path)
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, len(paths), "nothing is left over beside the papers")
}

// Where a paper cannot be written, the older one stays and the error names the
// file.
func TestWritePapersToNowhere(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
	paths, err := WritePapers(file, UsualPapers(), fixtureSite(), fixtureTables(), fixturePlan(), Options{})
	assert.Empty(t, paths)
	require.Error(t, err)
	assert.Contains(t, err.Error(), file)
	kept, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(kept))
}

func TestOptionsFor(t *testing.T) {
	s := &site.Site{Job: site.Job{Title: "The Old Mill / Unit 3"}, Units: unit.Metric, Paper: site.A4}
	for _, c := range []struct {
		name string
		opt  Options
		site *site.Site
		want Options
	}{
		{"all from the site", Options{}, s, Options{Name: "the-old-mill-unit-3", Paper: site.A4, Units: unit.Metric}},
		{"all given", Options{Name: "Job 7", Paper: site.Letter, Units: unit.US}, s, Options{Name: "job-7", Paper: site.Letter, Units: unit.US}},
		{"nothing anywhere", Options{}, &site.Site{}, Options{Name: "plan", Paper: site.Letter, Units: unit.US}},
		{"no way out of the folder", Options{Name: "../../etc/x"}, s, Options{Name: "etc-x", Paper: site.A4, Units: unit.Metric}},
		{"unknown words", Options{Paper: "napkin", Units: "ells"}, &site.Site{}, Options{Name: "plan", Paper: site.Letter, Units: unit.US}},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, c.opt.For(c.site)) })
	}
}

func TestPlanJSON(t *testing.T) {
	p := fixturePlan()
	out, err := PlanJSON(fixtureSite(), p)
	require.NoError(t, err)
	golden(t, "plan.json", out)
	again, err := PlanJSON(fixtureSite(), p)
	require.NoError(t, err)
	assert.Equal(t, out, again)

	var doc struct {
		Title string            `json:"title"`
		Units map[string]string `json:"units"`
		Plan  struct {
			Cost   float64 `json:"cost_minutes"`
			Blocks []struct {
				Runs []struct {
					End float64 `json:"end"`
				} `json:"runs"`
			} `json:"blocks"`
		} `json:"plan"`
	}
	require.NoError(t, json.Unmarshal(out, &doc))
	assert.Equal(t, "Rolling Pin Bakery, drains", doc.Title)
	assert.Equal(t, "m", doc.Units["length"])
	assert.InDelta(t, p.Cost.Minutes(), doc.Plan.Cost, 1e-9)
	assert.InDelta(t, p.Blocks[0].Runs[1].End.Metres(), doc.Plan.Blocks[0].Runs[1].End, 1e-9)
}

func TestChoosePapers(t *testing.T) {
	keys := func(papers []Paper) (all []string) {
		for _, p := range papers {
			all = append(all, p.Key)
			assert.NotEmpty(t, p.Title)
		}
		return all
	}
	all := keys(Papers())
	chosen, err := ChoosePapers(strings.Join(all, ","))
	require.NoError(t, err)
	assert.Equal(t, all, keys(chosen))
	chosen, err = ChoosePapers(" Map,sheet,,map ")
	require.NoError(t, err)
	assert.Equal(t, []string{"sheet", "map"}, keys(chosen), "in the order of the list, once")
	assert.Equal(t, []string{"sheet", "map", "svg", "csv", "json"}, keys(UsualPapers()))
	_, err = ChoosePapers("sheet,poster,menu")
	assert.EqualError(t, err, `there is no paper "menu": choose from `+strings.Join(all, ", "))
	_, err = ChoosePapers(" , ")
	assert.EqualError(t, err, "name a paper: "+strings.Join(all, ", "))
}

// Each paper can be made alone, and names its files by its own.
func TestPapersAlone(t *testing.T) {
	s := demos(t)[0].site.Clone()
	s.Geo = &site.Geo{Latitude: unit.Degrees(41.88), Longitude: unit.Degrees(-87.63)}
	s.Prices = site.Prices{Currency: "USD", Units: unit.US, CallOut: decimal.MustParse("95")}
	s.Visits = []site.Visit{{Date: "2026-03-17"}}
	names := map[string]bool{}
	for _, p := range Papers() {
		require.NoError(t, p.Lacks(s), p.Key)
		paths, err := WritePapers(t.TempDir(), []Paper{p}, s, demos(t)[0].tables, demos(t)[0].plan, Options{})
		require.NoError(t, err, p.Key)
		assert.NotEmpty(t, paths, p.Key)
		for _, path := range paths {
			assert.False(t, names[filepath.Base(path)], path)
			names[filepath.Base(path)] = true
		}
	}
}

// What goes wrong with a paper is told with its name, once.
func TestPapersThatFail(t *testing.T) {
	s := fixtureSite()
	s.Spots[0].At.X = 1e9
	for key, want := range map[string]string{
		"map": `map: spot "yard" lies at`, "svg": `svg: map: spot "yard" lies at`, "png": `png: map: spot "yard" lies at`,
		"geojson": "geojson: " + ErrNoGeo.Error(), "quote": "quote: no prices: ", "report": "report: the site has no visit yet",
	} {
		papers, err := ChoosePapers(key)
		require.NoError(t, err)
		dir := t.TempDir()
		_, err = WritePapers(dir, papers, s, fixtureTables(), fixturePlan(), Options{})
		require.Error(t, err, key)
		assert.True(t, strings.HasPrefix(err.Error(), want), err.Error())
		if lacks := papers[0].Lacks(s); lacks != nil {
			assert.Equal(t, key+": "+lacks.Error(), err.Error(), "said before as well")
		}
		left, err := os.ReadDir(dir)
		require.NoError(t, err)
		assert.Empty(t, left)
	}
}
