package audit_test

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
)

// field is one figure, name or mark of a value, with the way to it.
type field struct {
	path  string
	value reflect.Value
}

// fields lists every field of what v points to, down to the last.
func fields(v any) []field {
	var out []field
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer:
			if !v.IsNil() {
				walk(path, v.Elem())
			}
		case reflect.Struct:
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					walk(path+"."+v.Type().Field(i).Name, v.Field(i))
				}
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(fmt.Sprintf("%s[%d]", path, i), v.Index(i))
			}
		case reflect.Float64, reflect.Int, reflect.Int64, reflect.String, reflect.Bool:
			out = append(out, field{path, v})
		}
	}
	walk("", reflect.ValueOf(v))
	return out
}

// spoil changes a field to something else of its kind.
func (f field) spoil() {
	switch f.value.Kind() {
	case reflect.Float64:
		f.value.SetFloat(f.value.Float()*1.25 + 0.125)
	case reflect.Int:
		f.value.SetInt(f.value.Int() + 1)
	case reflect.Int64:
		f.value.SetInt(f.value.Int() + int64(time.Minute))
	case reflect.String:
		f.value.SetString(f.value.String() + "?")
	case reflect.Bool:
		f.value.SetBool(!f.value.Bool())
	}
}

// free are the fields that the rules leave to the planner: words for a reader,
// where a warning of its own judgement stands, a bound that is lower than it
// could be, whether the search was stopped, how good another plan is, and by how
// much what was not chosen is worse.
var free = regexp.MustCompile(`Name$|(Fittings\[\d+\]|Shortfalls\[\d+\]|Rule)\.What$|^\.Bound$|^\.Stopped$|\.Flags\[\d+\]\.At$|\.FreeProven$|\.Instead\[\d+\]\.(Choice|Own|Other|At|Dearer|Move|Pressures\[\d\]|Force|Nozzle)$`)

func TestEveryFieldOfThePlanIsChecked(t *testing.T) {
	for i, f := range fields(yardPlan()) {
		if free.MatchString(f.path) {
			continue
		}
		p := yardPlan()
		fields(p)[i].spoil()
		assert.NotEmpty(t, audit.Check(yard(), yardTables(), p), f.path)
	}
}

func TestFreeFieldsAreFree(t *testing.T) {
	p := yardPlan()
	for _, f := range fields(p) {
		switch f.path {
		case ".Shortfalls[0].Name", ".Blocks[0].Runs[0].Fittings[0].What", ".Bound", ".Stopped":
			f.spoil()
		}
	}
	audit.Require(t, yard(), yardTables(), p)
}

// In the plan of a random site, how much water is lacking is left free too:
// the rules do not say how it is counted.
var lacking = regexp.MustCompile(`\.ByWater$`)

func TestOneSpoiledFieldOfARandomPlanIsCaught(t *testing.T) {
	tables, base := sample.Tables(), usRig(t)
	rapid.Check(t, func(t *rapid.T) {
		s := randomSite(t, base, 10)
		p, err := route.Solve(context.Background(), s, tables, route.Options{})
		if err != nil {
			t.Fatal(err)
		}
		before := audit.Check(s, tables, p)
		all := fields(p)
		f := all[rapid.IntRange(0, len(all)-1).Draw(t, "field")]
		if free.MatchString(f.path) || lacking.MatchString(f.path) {
			return
		}
		f.spoil()
		if slices.Equal(before, audit.Check(s, tables, p)) {
			t.Fatalf("%s may be anything", f.path)
		}
	})
}

// extremes are what a broken or hostile file may hold.
func extreme(t *rapid.T, f field) {
	switch f.value.Kind() {
	case reflect.Float64:
		f.value.SetFloat(rapid.SampledFrom([]float64{
			math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1e300, -1e300, 1e-300,
		}).Draw(t, f.path))
	case reflect.Int, reflect.Int64:
		f.value.SetInt(rapid.SampledFrom([]int64{0, -1, math.MaxInt64, math.MinInt64, 99}).Draw(t, f.path))
	case reflect.String:
		f.value.SetString(rapid.SampledFrom([]string{"", "p1", "MH1", "A", "large", "upstream", "\x00trial", "jet", "manhole"}).Draw(t, f.path))
	case reflect.Bool:
		f.value.SetBool(!f.value.Bool())
	}
}

func TestHostilePlansAndSitesDoNoHarm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, s := yardPlan(), yard()
		switch rapid.IntRange(0, 2).Draw(t, "by hand") {
		case 1:
			s, p = byHandYard()
		case 2:
			s, p = orderedYard()
		}
		all := append(fields(p), fields(s)...)
		for range rapid.IntRange(1, 8).Draw(t, "changes") {
			extreme(t, all[rapid.IntRange(0, len(all)-1).Draw(t, "field")])
		}
		if rapid.IntRange(0, 5).Draw(t, "cut") == 0 {
			p.Day = p.Day[:rapid.IntRange(0, len(p.Day)).Draw(t, "events")]
			p.Blocks = append(p.Blocks, route.Block{})
		}
		audit.Check(s, yardTables(), p)
	})
}

func TestRequireTells(t *testing.T) {
	p := yardPlan()
	p.Cost--
	var told recorder
	require.False(t, audit.Require(&told, yard(), yardTables(), p))
	require.Len(t, told, 1)
	assert.Contains(t, told[0], "cost: plan: the cost is the sum of the day (got ")
	require.True(t, audit.Require(&told, yard(), yardTables(), yardPlan()))
}

// recorder is a test that only writes down.
type recorder []string

func (r *recorder) Helper() {}

func (r *recorder) Errorf(format string, args ...any) { *r = append(*r, fmt.Sprintf(format, args...)) }
