package export

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// visited is the fixture after two visits: on the day of the job run 1 got to
// its end, run 2 turned back in its last pipe and run 3 was not made; half a
// year before, run 1 and 2 were made. Run 2 cleans D1 from 28 to 73 ft, passes
// D2 and cleans D3 from 103 to 128.5 ft.
func visited(t testing.TB) *site.Site {
	t.Helper()
	s, p := fixtureSite(), fixturePlan()
	result := func(block, run int, feet float64) site.RunResult {
		b := &p.Blocks[block]
		return b.Runs[run].Result(b, unit.Feet(feet))
	}
	one, two, three := result(0, 0, 88), result(0, 1, 113), result(1, 0, 0)
	one.Found, one.Deposit, one.Severity, one.Condition = "Roots at the second joint", network.Roots, network.Heavy, site.WatchCondition
	one.Passes, one.Initials, one.Minutes = 2, "PL", minutes(26)
	one.Photos = []string{"photos/joint.jpg", "photos/gone.jpg"}
	two.Found, two.Deposit, two.Condition = "Hose held fast", network.Grease, site.RepairCondition
	two.Photos = []string{"photos/fast.png"}
	three.Found = "Door locked"
	before := []site.RunResult{result(0, 0, 88), result(0, 1, 128.5)}
	before[0].Deposit, before[0].Condition = network.Roots, site.GoodCondition
	before[1].Deposit = network.Grease
	s.Visits = []site.Visit{
		{Date: "2025-09-16", Crew: "A. Early", Runs: before},
		{Date: "2026-03-17", Crew: "P. Lanner and one more", Note: "Rain from 10:00.", Runs: []site.RunResult{one, two, three}},
	}
	require.NoError(t, site.Check(s.Visits[1]))
	return s
}

func reported(t testing.TB, sys unit.System) *reportSheet {
	t.Helper()
	tables, err := site.LoadTables()
	require.NoError(t, err)
	return newReportSheet(reportOf(visited(t), tables, fixturePlan(), sys))
}

// TestReportSheet keeps the whole content of a report, in both systems of units.
func TestReportSheet(t *testing.T) {
	for _, sys := range []unit.System{unit.US, unit.Metric} {
		text, err := json.Marshal(reported(t, sys), json.Deterministic(true), jsontext.WithIndent("  "))
		require.NoError(t, err)
		golden(t, "report-"+string(sys)+".golden", append(text, '\n'))
	}
}

// TestReportAddsUp works the fixture out by hand: of 60 + 45 + 25.5 + 30 ft
// planned, 60 + 45 + 10 ft are clean; 50 ft in three pipes could not be planned.
func TestReportAddsUp(t *testing.T) {
	w := reportOf(visited(t), fixtureTables(), fixturePlan(), unit.US)
	planned, cleaned, beyond := w.sums()
	assert.InDelta(t, 160.5, planned.Feet(), 0.01)
	assert.InDelta(t, 115, cleaned.Feet(), 0.01)
	assert.InDelta(t, 20+12+18, beyond.Feet(), 0.01)
	left := map[network.PipeID]float64{}
	for _, p := range w.undone() {
		left[p.id] = p.left().Feet()
	}
	want := map[network.PipeID]float64{"C1-W1": 30, "W1-CO3": 15.5, "W1-F2": 20, "B1-F1": 12, "C1-B1": 18}
	assert.Len(t, left, len(want))
	for id, feet := range want {
		assert.InDelta(t, feet, left[id], 0.01, id)
	}
}

// TestJobVisits tells the visits of the job in hand from those before it.
func TestJobVisits(t *testing.T) {
	for _, c := range []struct {
		name, job string
		days      []string
		want      int
	}{
		{"none", "2026-03-17", nil, 0},
		{"one before the job", "2026-03-17", []string{"2025-09-16"}, 1},
		{"the job's and one before", "2026-03-17", []string{"2025-09-16", "2026-03-17"}, 1},
		{"a job of three days", "2026-03-17", []string{"2025-09-16", "2026-03-17", "2026-03-18", "2026-03-20"}, 3},
		{"one long after the job", "2026-03-17", []string{"2026-03-17", "2026-09-16"}, 1},
		{"a job without a day", "", []string{"2026-03-17", "2026-03-18"}, 1},
	} {
		s := &site.Site{Job: site.Job{Date: c.job}}
		for _, d := range c.days {
			s.Visits = append(s.Visits, site.Visit{Date: d})
		}
		got := jobVisits(s)
		assert.Len(t, got, c.want, c.name)
		if c.want > 0 {
			assert.Equal(t, c.days[len(c.days)-1], got[c.want-1].Date, c.name)
		}
	}
}

func TestReportIsAPaper(t *testing.T) {
	tables, err := site.LoadTables()
	require.NoError(t, err)
	folder := photoFolder(t)
	isAPaper(t, "report", func(opt Options) ([]byte, error) {
		opt.Folder = folder
		return Report(visited(t), tables, fixturePlan(), opt)
	}, []string{"Report", "In short", "What was found", "What is left", "When to come back", "History of visits", "Map", "Photos"})
}

func TestReportTextIsFound(t *testing.T) {
	tables, err := site.LoadTables()
	require.NoError(t, err)
	out, err := Report(visited(t), tables, fixturePlan(), Options{Folder: photoFolder(t)})
	require.NoError(t, err)
	everyTextIsFound(t, out, reported(t, unit.US))
	text := strings.Join(strings.Fields(outside(t, out, "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })), " ")
	assert.Contains(t, text, "Not printed: picture photos/gone.jpg")
	assert.Contains(t, text, "Map of the drains as cleaned")
	assert.Contains(t, text, "Runs made")
}

// photoFolder is the folder of a site file with two of the three photos beside
// it.
func photoFolder(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "photos"), 0o755))
	img := image.NewRGBA(image.Rect(0, 0, 1600, 1200))
	for i := range img.Pix {
		img.Pix[i] = byte(i/6400) | 0x80
	}
	img.Set(3, 3, color.RGBA{255, 0, 0, 255})
	var asJPEG, asPNG bytes.Buffer
	require.NoError(t, jpeg.Encode(&asJPEG, img, nil))
	require.NoError(t, png.Encode(&asPNG, img.SubImage(image.Rect(0, 0, 300, 900))))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "photos", "joint.jpg"), asJPEG.Bytes(), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "photos", "fast.png"), asPNG.Bytes(), 0o600))
	return dir
}

// TestReportWithoutAVisit asks for one.
func TestReportWithoutAVisit(t *testing.T) {
	_, err := Report(fixtureSite(), fixtureTables(), fixturePlan(), Options{})
	require.ErrorContains(t, err, "the site has no visit yet")
	papers, err := ChoosePapers("report")
	require.NoError(t, err)
	require.Error(t, papers[0].Lacks(fixtureSite()))
	assert.NoError(t, papers[0].Lacks(visited(t)))
}

// TestReportOfAnything makes reports of visits that fit the drawing badly: pipe
// that is gone, runs of another plan, words without end, characters of no font.
func TestReportOfAnything(t *testing.T) {
	tables, err := site.LoadTables()
	require.NoError(t, err)
	s := visited(t)
	v := &s.Visits[1]
	v.Note, v.Crew = strings.Repeat("word ", 2000), strings.Repeat("x", 200)
	for i := range v.Runs {
		v.Runs[i].Found = strings.Repeat("岩", 1000)
	}
	for i := range 300 {
		r := v.Runs[0]
		r.Run.Access, r.Number = network.NodeID(fmt.Sprint("n", i)), i
		r.Pipes = []site.PipeResult{{Pipe: "gone", Length: 9, Cleaned: 3}, {Pipe: "OUT-MH1"}, {Pipe: "OUT-MH1", Length: 1e4, Cleaned: 1e4}}
		v.Runs = append(v.Runs, r)
	}
	for _, p := range []*route.Plan{fixturePlan(), {}} {
		out, err := Report(s, tables, p, Options{Folder: photoFolder(t)})
		require.NoError(t, err)
		assert.Contains(t, outside(t, out, "qpdf", func(f string) []string { return []string{"--check", f} }), "No syntax or stream encoding errors")
	}
}

func BenchmarkReport(b *testing.B) {
	tables, err := site.LoadTables()
	require.NoError(b, err)
	s, p := visited(b), fixturePlan()
	for b.Loop() {
		if _, err := Report(s, tables, p, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
