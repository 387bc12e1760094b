package export

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/unit"
)

func TestPlanCSV(t *testing.T) {
	for _, sys := range []unit.System{unit.US, unit.Metric} {
		t.Run(string(sys), func(t *testing.T) {
			out, err := PlanCSV(fixtureSite(), fixtureTables(), fixturePlan(), Options{Units: sys})
			require.NoError(t, err)
			golden(t, "plan-"+string(sys)+".csv", out)

			again, err := PlanCSV(fixtureSite(), fixtureTables(), fixturePlan(), Options{Units: sys})
			require.NoError(t, err)
			assert.Equal(t, out, again)
		})
	}
}

// RFC 4180: records end in CRLF and all have as many fields as the header.
func TestPlanCSVIsRFC4180(t *testing.T) {
	out, err := PlanCSV(fixtureSite(), fixtureTables(), fixturePlan(), Options{})
	require.NoError(t, err)
	assert.Equal(t, bytes.Count(out, []byte("\n")), bytes.Count(out, []byte("\r\n")))
	rows, err := csv.NewReader(bytes.NewReader(out)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+4, "one row per pass")
	assert.Len(t, slices.Compact(slices.Sorted(slices.Values(rows[0]))), len(rows[0]), "no two columns of one name")
}

// The figures of the table are the plan's: passes sum to what the runs say.
func TestPlanCSVAddsUp(t *testing.T) {
	p := fixturePlan()
	out, err := PlanCSV(fixtureSite(), fixtureTables(), p, Options{Units: unit.US})
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(out)).ReadAll()
	require.NoError(t, err)
	col := func(name string) int {
		i := slices.Index(rows[0], name)
		require.GreaterOrEqual(t, i, 0, "no column %s", name)
		return i
	}
	water, want := 0.0, 0.0
	for _, row := range rows[1:] {
		gal, err := strconv.ParseFloat(row[col("water_gal")], 64)
		require.NoError(t, err)
		water += gal
	}
	for _, run := range p.Runs() {
		want += run.Water.Gallons()
	}
	assert.InDelta(t, want, water, 0.05*float64(len(rows)))
	assert.Equal(t, "128.5", rows[2][col("end_ft")])
	assert.Equal(t, "CO-3", rows[4][col("access")])
	assert.Equal(t, "103", rows[2][col("confirm_at_ft")])
}

// Text that a spreadsheet takes for a formula is disarmed (OWASP, "CSV
// Injection": cells that begin with = + - @, a tab or a carriage return).
func TestFormulasAreDisarmed(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"CO-3", "CO-3"},
		{"=HYPERLINK(\"x\")", "'=HYPERLINK(\"x\")"},
		{"+1", "'+1"},
		{"-2", "'-2"},
		{"@sum", "'@sum"},
		{"\t=1", "' =1"},
		{"  =1", "'  =1"},
		{"\r\n@x", "'  @x"},
		{"＝1", "'＝1"},
		{"a\x00b", "a b"},
		{"\xff=", "\uFFFD="},
		{"", ""},
	} {
		assert.Equal(t, c.want, guarded(c.in), "%q", c.in)
	}
}

func TestHostileNamesInCSV(t *testing.T) {
	s := fixtureSite()
	s.Spots[0].Label = "=cmd|' /C calc'!A0"
	s.Network.Nodes[1].Label = "line\r\nbreak, \"quoted\""
	out, err := PlanCSV(s, fixtureTables(), fixturePlan(), Options{})
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(out)).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, "'=cmd|' /C calc'!A0", rows[1][1])
	assert.Equal(t, "line  break, \"quoted\"", rows[1][4])
	for _, row := range rows[1:] {
		for _, cell := range row {
			assert.False(t, strings.HasPrefix(cell, "="), cell)
		}
	}
}
