package export

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func blankResults(t testing.TB, sys unit.System) []byte {
	t.Helper()
	out, err := ResultsCSV(fixtureSite(), fixtureTables(), fixturePlan(), Options{Units: sys})
	require.NoError(t, err)
	return out
}

func TestResultsCSV(t *testing.T) {
	for _, sys := range []unit.System{unit.US, unit.Metric} {
		out := blankResults(t, sys)
		golden(t, "results-"+string(sys)+".csv", out)
		none, err := ReadResults(out, fixtureSite(), fixtureTables(), fixturePlan())
		require.NoError(t, err)
		assert.Empty(t, none, "nothing was filled in")
	}
}

// filled writes cells into the blank table: by row, column name and text.
func filled(t testing.TB, sys unit.System, cells map[int]map[string]string) [][]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(blankResults(t, sys))).ReadAll()
	require.NoError(t, err)
	for n, named := range cells {
		for name, text := range named {
			i := slices.Index(rows[0], name)
			require.GreaterOrEqual(t, i, 0, name)
			rows[n][i] = text
		}
	}
	return rows
}

func written(t testing.TB, rows [][]string, comma rune) []byte {
	t.Helper()
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Comma = comma
	require.NoError(t, w.WriteAll(rows))
	return out.Bytes()
}

func readBack(data []byte) ([]site.RunResult, error) {
	return ReadResults(data, fixtureSite(), fixtureTables(), fixturePlan())
}

// TestReadResults fills the table in as a crew would. Run 2 of the fixture cleans
// D1 from 28 to 73 ft, passes D2 and cleans D3 from 103 to 128.5 ft.
func TestReadResults(t *testing.T) {
	rows := filled(t, unit.US, map[int]map[string]string{
		1: {"reached_ft": "0", "found": "cover stuck, \"no\" way in"},
		2: {
			"reached_ft": " 110' 6\" ", "found": "=grease", "deposit": "Grease", "severity": "HEAVY", "condition": "watch",
			"passes": "3", "minutes": "41.5", "initials": "PL", "photos": "photos/a.jpg; b.png;",
		},
	})
	want := []site.RunResult{
		{
			Run: site.RunKey{Spot: "yard", Hose: "half", Access: "MH1", End: "OUT-MH1", Downstream: true}, Number: 1, Planned: unit.Feet(88),
			Found: `cover stuck, "no" way in`, Pipes: []site.PipeResult{{Pipe: "OUT-MH1", Length: unit.Feet(60)}},
		},
		{
			Run: site.RunKey{Spot: "yard", Hose: "half", Access: "MH1", End: "W1-CO3"}, Number: 2, Planned: unit.Feet(128) + unit.Inches(6),
			Reached: unit.Feet(110.5), Found: "=grease", Deposit: network.Grease, Severity: network.Heavy, Condition: site.WatchCondition,
			Passes: 3, Minutes: 41*time.Minute + 30*time.Second, Initials: "PL", Photos: []string{"photos/a.jpg", "b.png"},
			Pipes: []site.PipeResult{{Pipe: "MH1-C1", Length: unit.Feet(45), Cleaned: unit.Feet(45)}, {Pipe: "W1-CO3", Length: unit.Feet(25.5), Cleaned: unit.Feet(7.5)}},
		},
	}
	same := func(t *testing.T, got []site.RunResult) {
		t.Helper()
		require.Len(t, got, len(want))
		for i := range want {
			for k, p := range want[i].Pipes {
				assert.InDelta(t, p.Length.Feet(), got[i].Pipes[k].Length.Feet(), 0.0033)
				assert.InDelta(t, p.Cleaned.Feet(), got[i].Pipes[k].Cleaned.Feet(), 0.0033)
			}
			assert.InDelta(t, want[i].Reached.Feet(), got[i].Reached.Feet(), 0.0033)
			assert.InDelta(t, want[i].Planned.Feet(), got[i].Planned.Feet(), 0.0033)
			g, w := got[i], want[i]
			g.Pipes, w.Pipes, g.Reached, w.Reached, g.Planned, w.Planned = nil, nil, 0, 0, 0, 0
			assert.Equal(t, w, g)
		}
	}
	turned := slices.Clone(rows)
	for i := range turned {
		turned[i] = slices.Clone(turned[i])
		slices.Reverse(turned[i])
		turned[i] = append(turned[i], "remark")
	}
	slices.Reverse(turned[1:])
	for name, data := range map[string][]byte{
		"as written":                      written(t, rows, ','),
		"with a byte order mark and CRLF": append([]byte("\xef\xbb\xbf"), bytes.ReplaceAll(written(t, rows, ','), []byte("\n"), []byte("\r\n"))...),
		"with semicolons":                 written(t, rows, ';'),
		"with tabs":                       written(t, rows, '\t'),
		"without an end of line":          bytes.TrimSpace(written(t, rows, ',')),
		"with empty rows":                 append(written(t, rows, ','), "\n,,,\n\n"...),
	} {
		t.Run(name, func(t *testing.T) {
			got, err := readBack(data)
			require.NoError(t, err)
			same(t, got)
		})
	}
	t.Run("columns and rows in another order, and one more", func(t *testing.T) {
		got, err := readBack(written(t, turned, ','))
		require.NoError(t, err)
		slices.Reverse(got)
		same(t, got)
	})
	t.Run("metres with a decimal comma", func(t *testing.T) {
		rows := filled(t, unit.Metric, map[int]map[string]string{3: {"reached_m": "33,5", "minutes": "12,5"}})
		got, err := readBack(written(t, rows, ';'))
		require.NoError(t, err)
		require.Len(t, got, 1)
		assert.Equal(t, unit.Metres(33.5), got[0].Reached)
		assert.Equal(t, 12*time.Minute+30*time.Second, got[0].Minutes)
	})
}

// TestReadResultsRefuses breaks one cell, or the whole table, and looks at what
// is said about it.
func TestReadResultsRefuses(t *testing.T) {
	cell := func(row int, name, text string) []byte {
		return written(t, filled(t, unit.US, map[int]map[string]string{2: {"reached_ft": "100"}, row: {"reached_ft": "50", name: text}}), ',')
	}
	good := string(cell(1, "found", "sand"))
	for _, c := range []struct {
		name string
		data []byte
		want string
	}{
		{"nothing", nil, "line 1: found an empty table"},
		{"too much", make([]byte, MaxResultsBytes+1), "line 1: found a larger table, must be at most 8388608 bytes"},
		{"another encoding", []byte("run_key,reached_ft\nabc,1\nstra\xdfe,2\n"), "line 3: found the byte 0xdf, must be text in UTF-8"},
		{"two bytes to a character", []byte("\xff\xfer\x00u\x00n\x00"), "line 1: found the byte 0x00, must be text in UTF-8"},
		{"no key", []byte(strings.Replace(good, "run_key", "key", 1)), "line 1, column run_key: found no such column"},
		{"no counter", []byte(strings.Replace(good, "reached_ft", "reached", 1)), "line 1, column reached_ft: found no such column"},
		{"two counters", []byte(strings.Replace(good, "planned_ft", "reached_m", 1)), "line 1, column reached_ft: found the column a second time"},
		{"a column twice", []byte(strings.Replace(good, "access", "Found", 1)), "line 1, column found: found the column a second time"},
		{"a quote that never ends", []byte(strings.Replace(good, "sand", `"sand`, 1)), "line 4: found extraneous or missing \" in quoted-field"},
		{"a run of another plan", cell(1, "run_key", "yard/half/MH1/gone/up"), `line 2, column run_key: found "yard/half/MH1/gone/up", must be the key of a run of the present plan`},
		{"a run twice", cell(1, "run_key", "yard/half/MH1/W1-CO3/up"), `line 3, column run_key: found "yard/half/MH1/W1-CO3/up", must be unlike that of line 2`},
		{"no reading", cell(1, "reached_ft", ""), ""},
		{"words but no reading", written(t, filled(t, unit.US, map[int]map[string]string{1: {"found": "sand"}}), ','), "line 2, column reached_ft: found nothing, must be the reading of the hose counter from 0 (run not made) to 400 ft"},
		{"a reading of words", cell(1, "reached_ft", "far"), `line 2, column reached_ft: found "far"`},
		{"a reading below nothing", cell(1, "reached_ft", "-3"), `column reached_ft: found "-3"`},
		{"more than the hose", cell(1, "reached_ft", "401"), `column reached_ft: found "401", must be the reading of the hose counter from 0 (run not made) to 400 ft`},
		{"not a number", cell(1, "reached_ft", "NaN"), `column reached_ft: found "NaN"`},
		{"half a pass", cell(1, "passes", "1.5"), `line 2, column passes: found "1.5", must be a whole number from 0 to 1000`},
		{"passes without end", cell(1, "passes", "99999999999999999999"), "column passes"},
		{"minutes of a clock", cell(1, "minutes", "1:20"), `column minutes: found "1:20", must be a number of minutes from 0 to 1440`},
		{"minutes without end", cell(1, "minutes", "Inf"), `column minutes: found "Inf"`},
		{"a deposit of no table", cell(1, "deposit", "mud"), `column deposit: found "mud", must be one of grease, roots`},
		{"a severity of no word", cell(1, "severity", "bad"), `column severity: found "bad", must be one of light, moderate, heavy`},
		{"a condition of no word", cell(1, "condition", "so-so"), `column condition: found "so-so", must be one of good, watch, repair`},
		{"a photo from elsewhere", cell(1, "photos", "a.jpg; ../b.jpg"), `line 2, column photos: found "../b.jpg", must be a path inside the folder of the document`},
		{"a photo by a drive", cell(1, "photos", `C:\a.jpg`), `column photos: found "C:\\a.jpg"`},
		{"found too long", cell(1, "found", strings.Repeat("x", 1001)), "column found: found "},
		{"initials too long", cell(1, "initials", strings.Repeat("x", 21)), "column initials: found "},
		{"photos too many", cell(1, "photos", strings.Repeat("a.jpg;", 51)), "column photos: found a list of 51"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := readBack(c.data)
			if c.want == "" {
				require.NoError(t, err)
				return
			}
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.want)
			assert.Nil(t, got, "all or nothing")
			assert.Less(t, len(err.Error()), 500)
		})
	}
}

// TestKeysOfRunsDiffer holds the keys of the table apart for runs that differ in
// anything.
func TestKeysOfRunsDiffer(t *testing.T) {
	seen := map[string]site.RunKey{}
	for _, a := range []string{"a", "a.b", "a:b-c_d"} {
		for _, b := range []string{"a", "b"} {
			for _, down := range []bool{false, true} {
				key := site.RunKey{Spot: site.SpotID(a), Hose: b, Access: network.NodeID(b), End: network.PipeID(a), Downstream: down}
				text := keyText(key)
				assert.NotContains(t, seen, text, fmt.Sprint(key))
				seen[text] = key
			}
		}
	}
}

// FuzzReadResults reads whatever a file may hold: it is taken or refused with a
// place, and what is taken can be kept in a site file.
func FuzzReadResults(f *testing.F) {
	f.Add(blankResults(f, unit.US))
	f.Add(written(f, filled(f, unit.US, map[int]map[string]string{1: {"reached_ft": "80", "deposit": "roots", "photos": "a.png;b.png"}}), ','))
	f.Add(written(f, filled(f, unit.Metric, map[int]map[string]string{2: {"reached_m": "30,5", "minutes": "12,5", "passes": "2"}}), ';'))
	f.Add([]byte("run_key\treached_ft\n\"yard"))
	s, tables, plan := fixtureSite(), fixtureTables(), fixturePlan()
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := ReadResults(data, s, tables, plan)
		if err != nil {
			var wrong *ResultsError
			require.ErrorAs(t, err, &wrong)
			assert.Positive(t, wrong.Line)
			return
		}
		require.NoError(t, site.Check(site.Visit{Date: "2026-03-17", Runs: got}))
	})
}
