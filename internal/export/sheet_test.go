package export

import (
	"encoding/json"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

var update = flag.Bool("update", false, "write the goldens anew")

// golden compares got with a file of testdata, or writes the file anew.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run the tests with -update to write the golden")
	assert.Equal(t, string(want), string(got))
}

// The whole content of a sheet, in both systems of units.
func TestSheetContent(t *testing.T) {
	for _, sys := range []unit.System{unit.US, unit.Metric} {
		t.Run(string(sys), func(t *testing.T) {
			sh := newSheet(fixtureSite(), fixtureTables(), fixturePlan(), Options{Units: sys})
			text, err := json.MarshalIndent(sh, "", "  ")
			require.NoError(t, err)
			golden(t, "sheet-"+string(sys)+".json", append(text, '\n'))
		})
	}
}

// Every reading on the sheet is the plan's, to the inch or the centimetre: on
// the fixture, and on what the planner makes of random sites.
func TestReadingsAreThePlans(t *testing.T) {
	tables, err := site.LoadTables()
	require.NoError(t, err)
	for _, sys := range []unit.System{unit.US, unit.Metric} {
		t.Run(string(sys), func(t *testing.T) {
			assert.Equal(t, 11, compareReadings(t, fixtureSite(), fixtureTables(), fixturePlan(), sys), "pipes and fittings of the fixture")
			n := 0
			for i := range uint64(40) {
				s := sample.Random(rand.New(rand.NewPCG(i, 7)), 12)
				p, err := route.Solve(t.Context(), s, tables, route.Options{})
				require.NoError(t, err)
				n += compareReadings(t, s, tables, p, sys)
			}
			assert.Greater(t, n, 150)
		})
	}
}

// compareReadings compares a sheet with its plan and counts the pipes and
// fittings compared.
func compareReadings(t *testing.T, s *site.Site, tables *site.Tables, p *route.Plan, sys unit.System) (n int) {
	grain := map[unit.System]unit.Length{unit.US: unit.Inches(1), unit.Metric: unit.Metres(0.01)}[sys]
	near := func(want unit.Length, got string) {
		t.Helper()
		assert.LessOrEqual(t, math.Abs(float64(want-parseReading(t, got))), float64(grain)/2+1e-9, "%s for %v m", got, want)
	}
	sh := newSheet(s, tables, p, Options{Units: sys})
	for b := range p.Blocks {
		for r := range p.Blocks[b].Runs {
			run, set := &p.Blocks[b].Runs[r], &sh.Blocks[b].Runs[r]
			near(run.End, set.End)
			near(run.Lay, set.Way[0].At)
			near(run.End, set.Way[len(set.Way)-1].At)
			for i := range run.Passes {
				near(run.Passes[i].End, set.Passes[i].TurnAt)
			}
			var fittings, pipes []wayRow
			for _, row := range set.Way {
				if row.Kind == wayFitting {
					fittings = append(fittings, row)
				}
				if row.Pipe != "" {
					pipes = append(pipes, row)
				}
			}
			require.Len(t, fittings, len(run.Fittings))
			for i, f := range run.Fittings {
				near(f.At, fittings[i].At)
			}
			require.Len(t, pipes, len(run.Path))
			for i, leg := range run.Path {
				near(leg.From, pipes[i].At)
				assert.Equal(t, leg.Cleaned, pipes[i].Cleaned)
			}
			n += len(fittings) + len(pipes)
		}
	}
	return n
}

var (
	feetAndInches = regexp.MustCompile(`^(\d+) ft (\d+) in$`)
	metres        = regexp.MustCompile(`^(\d+\.\d\d) m$`)
)

// parseReading reads what a sheet says back into a length.
func parseReading(t *testing.T, s string) unit.Length {
	t.Helper()
	if m := metres.FindStringSubmatch(s); m != nil {
		v, err := strconv.ParseFloat(m[1], 64)
		require.NoError(t, err)
		return unit.Metres(v)
	}
	m := feetAndInches.FindStringSubmatch(s)
	require.NotNil(t, m, "%q is no reading", s)
	ft, err := strconv.Atoi(m[1])
	require.NoError(t, err)
	in, err := strconv.Atoi(m[2])
	require.NoError(t, err)
	require.Less(t, in, 12)
	return unit.Feet(float64(ft)) + unit.Inches(float64(in))
}

func TestDownstreamAndBranchesStandOut(t *testing.T) {
	sh := newSheet(fixtureSite(), fixtureTables(), fixturePlan(), Options{})
	first, second := sh.Blocks[0].Runs[0], sh.Blocks[0].Runs[1]
	assert.True(t, first.Downstream)
	assert.False(t, second.Downstream)
	assert.Contains(t, strings.Join(first.Warnings, "\n"), "Downstream run")
	assert.Contains(t, strings.Join(first.Warnings, "\n"), "At most 1500 psi at the nozzle")
	var confirm []string
	for _, row := range second.Way {
		if row.Confirm {
			confirm = append(confirm, row.At)
		}
	}
	assert.Equal(t, []string{"103 ft 0 in"}, confirm)
}

// A wait between two passes stands with the run that waits, the set-up before
// the runs of its block and the pack-up after them.
func TestTheDayIsSortedToItsRuns(t *testing.T) {
	sh := newSheet(fixtureSite(), fixtureTables(), fixturePlan(), Options{})
	says := func(steps []step) (all []string) {
		for _, s := range steps {
			all = append(all, s.Clock+" "+s.Say+" "+s.Takes)
		}
		return all
	}
	assert.Equal(t, []string{"7:30 am Set up 20 min"}, says(sh.Blocks[0].Before))
	assert.Equal(t, []string{
		"9:18 am Drain the tank, tank from 162 gal to 0 gal 4 min",
		"9:22 am Pack up, tank at 0 gal 15 min",
	}, says(sh.Blocks[0].After))
	assert.Equal(t, []string{"9:37 am Move the trailer 11 min", "9:48 am Set up 20 min"}, says(sh.Blocks[1].Before))
	assert.Equal(t, []string{
		"8:30 am Wait for water, tank from 120 gal to 184 gal 8 min",
		"9:01 am Before pass 2: wait for water, tank from 190 gal to 214 gal 3 min",
	}, says(sh.Blocks[0].Runs[1].Before))
	assert.Contains(t, sh.Blocks[0].Runs[1].Facts, fact{factTank, "184 gal, 162 gal"})
}

// Notes stand with the run that meets their place; the others come last.
func TestNotesStandOnce(t *testing.T) {
	sh := newSheet(fixtureSite(), fixtureTables(), fixturePlan(), Options{})
	const tile = "Tile cover, needs the long screwdriver."
	assert.Equal(t, tile, sh.Blocks[1].Runs[0].Way[0].Note, "at the opening")
	way := sh.Blocks[0].Runs[1].Way
	assert.Equal(t, tile, way[len(way)-1].Note, "at the far end")
	for _, row := range sh.Blocks[0].Runs[0].Way {
		assert.Empty(t, row.Note)
	}
	var names []string
	for _, n := range sh.Notes {
		names = append(names, n.Name)
	}
	assert.Equal(t, []string{"The job", "Hose bib W-1", "Basin"}, names)
}

// The warning mark comes out of the opening when the nozzle is 10 ft inside
// it (common practice); of a hose that never went in that far it stays out.
func TestStopMark(t *testing.T) {
	w := &wording{sys: unit.US}
	assert.Equal(t, "32 ft 6 in", w.stopMark(&route.Run{Lay: unit.Feet(22.5), End: unit.Feet(88)}))
	assert.Equal(t, "stays out", w.stopMark(&route.Run{Lay: unit.Feet(22.5), End: unit.Feet(32)}))
}

func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		in   []int
		want string
	}{
		{nil, ""},
		{[]int{4}, "4"},
		{[]int{2, 1, 2}, "1, 2"},
		{[]int{1, 2, 3, 5, 7, 8}, "1 to 3, 5, 7, 8"},
		{[]int{1, 3, 5, 7, 9, 11, 13, 15, 17}, "9 runs from 1 to 17"},
	} {
		assert.Equal(t, c.want, numbers(c.in))
	}
}

func TestClock(t *testing.T) {
	for _, c := range []struct {
		sys   unit.System
		start string
		shift float64
		after float64
		want  string
	}{
		{unit.US, "07:30", 0, 0, "7:30 am"},
		{unit.US, "07:30", 0, 335, "1:05 pm"},
		{unit.Metric, "07:30", 0, 335, "13:05"},
		{unit.Metric, "22:00", 0, 180, "01:00, day 2"},
		{unit.US, "00:00", 0, 1439, "11:59 pm"},
		{unit.US, "07:00", 0, 3000, "9:00 am, day 3"},
		{unit.US, "07:00", 600, 599, "4:59 pm"},
		{unit.US, "07:00", 600, 600, "7:00 am, day 2"},
		{unit.US, "07:00", 600, 1275, "8:15 am, day 3"},
		{unit.US, "", 0, 95, "+1 h 35 min"},
		{unit.US, "when it suits", 0, 0, "+0 min"},
	} {
		crew := &rig.Crew{Shift: c.shift}
		assert.Equal(t, c.want, clock(c.sys, c.start, crew, minutes(c.after)), "%s %s", c.sys, c.start)
	}
}

func TestDays(t *testing.T) {
	crew := &rig.Crew{Shift: 600}
	assert.Empty(t, days(crew, 600*time.Minute))
	assert.Contains(t, days(crew, 601*time.Minute), "2 working days of 10 h 00 min")
	assert.Empty(t, days(&rig.Crew{}, 100*time.Hour))
}

func TestDay(t *testing.T) {
	assert.Equal(t, "Tue, Mar 17, 2026", day(unit.US, "2026-03-17"))
	assert.Equal(t, "Tue 17 Mar 2026", day(unit.Metric, "2026-03-17"))
	assert.Equal(t, "next week", day(unit.US, "next week"))
}
