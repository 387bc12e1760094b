package rig

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/unit"
)

// perFileUnit turns the units of the document format into SI by member name.
// Members that are not listed are the same in both.
var perFileUnit = map[string]float64{
	"flow": 1e-3 / 60, "drain": 1e-3 / 60, "max_flow": 1e-3 / 60,
	"rated": 1e3, "unloader": 1e3, "working_pressure": 1e3,
	"volume": 1e-3, "start": 1e-3, "stop": 1e-3,
	"sharpest": math.Pi / 180, "branch_turn": math.Pi / 180, "angle": math.Pi / 180,
	"tow_speed": 1. / 60, "lay_speed": 1. / 60, "travel_speed": 1. / 60,
	"forward_speed": 1. / 60, "back_speed": 1. / 60,
}

// inSI rewrites a decoded document in SI.
func inSI(v any) {
	switch v := v.(type) {
	case map[string]any:
		for name, member := range v {
			if f, ok := member.(float64); ok && perFileUnit[name] != 0 {
				v[name] = f * perFileUnit[name]
			}
			inSI(member)
		}
	case []any:
		for _, member := range v {
			inSI(member)
		}
	}
}

// shipped reads the default rigs by file name.
func shipped(t testing.TB) map[string]*Rig {
	t.Helper()
	paths, err := filepath.Glob("../../assets/rigs/*.json")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(paths), 2)
	rigs := map[string]*Rig{}
	for _, path := range paths {
		raw, err := os.ReadFile(path)
		require.NoError(t, err)
		var doc any
		require.NoError(t, json.Unmarshal(raw, &doc))
		inSI(doc)
		raw, err = json.Marshal(doc)
		require.NoError(t, err)
		r := new(Rig)
		dec := json.NewDecoder(strings.NewReader(string(raw)))
		dec.DisallowUnknownFields()
		require.NoError(t, dec.Decode(r), path)
		rigs[strings.TrimSuffix(filepath.Base(path), ".json")] = r
	}
	return rigs
}

func TestShippedRigs(t *testing.T) {
	t.Parallel()
	for name, r := range shipped(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			assert.Empty(t, r.Problems())
			w := WaterAt(r.Water)
			var table strings.Builder
			for i := range r.Hoses {
				for k := range r.Nozzles {
					h, n := &r.Hoses[i], &r.Nozzles[k]
					op, setting, err := r.Operate(h, n, 0)
					require.NoError(t, err)
					fmt.Fprintf(&table, "\n%-16s %-34s", h.Name, n.Name)
					for _, sys := range []unit.System{unit.US, unit.Metric} {
						fmt.Fprintf(&table, " | %9s pump %8s nozzle %8s thrust %6s", sys.Flow(op.Flow),
							sys.Pressure(op.Pump), sys.Pressure(op.Nozzle), sys.Force(op.Thrust))
					}
					for _, m := range []Range{{.2, .3, .4}, {.3, .45, .6}} {
						far := []Step{{Length: h.Length, Friction: m}}
						fmt.Fprintf(&table, " | %3.0f %3.0f", ReachAlong(far, h, w, op.Thrust, LowReach).Feet(), ReachAlong(far, h, w, op.Thrust, LikelyReach).Feet())
					}
					_ = setting
				}
			}
			t.Log(table.String())
		})
	}
}
