package rig

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
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

func TestShippedRigsAreSound(t *testing.T) {
	t.Parallel()
	for name, r := range shipped(t) {
		assert.Empty(t, r.Problems(), name)
		assert.NotEmpty(t, r.Note, "%s: what its figures rest on", name)
		assert.Contains(t, r.Note, "common practice", name)
	}
}

// Log what every pair of hose and nozzle comes to (go test -v), and hold it to
// what a rig that a crew would keep must do.
func TestShippedRigsWork(t *testing.T) {
	t.Parallel()
	for name, r := range shipped(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			sys := unit.US
			if name == "metric" {
				sys = unit.Metric
			}
			var table strings.Builder
			for i := range r.Hoses {
				h := &r.Hoses[i]
				var hardest unit.Pressure
				for k := range r.Nozzles {
					n := &r.Nozzles[k]
					op, setting, err := r.Operate(h, n, 0)
					require.NoError(t, err)
					assert.LessOrEqual(t, op.Pump, setting)
					if n.MinPipe <= h.MinPipe && h.MinPipe <= n.MaxPipe { // made for hose of this size
						hardest = max(hardest, op.Pump)
						assert.Greater(t, op.Nozzle, op.Pump/4, "%s on %s: the hose eats the pressure", n.Name, h.Name)
					}
					fmt.Fprintf(&table, "\n%-16s %-36s %9s  pump %8s  nozzle %8s  thrust %7s",
						h.Name, n.Name, sys.Flow(op.Flow), sys.Pressure(op.Pump), sys.Pressure(op.Nozzle), sys.Force(op.Thrust))
				}
				assert.Greater(t, hardest, r.Pump.Unloader*95/100, "no nozzle brings the pump to its pressure on %s", h.Name)
			}
			t.Log(table.String())
		})
	}
}

// A straight run of 200 ft, or of the whole hose where that is shorter, leaves
// a pulling nozzle a fifth of its thrust even in the low case. Friction of wet
// PVC 0.2 to 0.4 (assumed; no source).
func TestShippedRigsReach(t *testing.T) {
	t.Parallel()
	for name, r := range shipped(t) {
		w := WaterAt(r.Water)
		for i := range r.Hoses {
			h := &r.Hoses[i]
			far := []Step{{Length: min(unit.Feet(200), h.Length), Friction: Range{0.2, 0.3, 0.4}}}
			var best unit.Force
			for k := range r.Nozzles {
				n := &r.Nozzles[k]
				if n.MinPipe <= h.MinPipe && slices.Contains(n.Purposes, Pulling) {
					op, _, err := r.Operate(h, n, 0)
					require.NoError(t, err)
					best = max(best, op.Thrust)
				}
			}
			assert.Greater(t, float64(best)*0.8, float64(Drag(far, h, w, LowReach)), "%s, %s", name, h.Name)
		}
	}
}

// Every size from 1.5 to 8 in can be opened, pulled and flushed by some hose
// and nozzle, and from 3 in up by a nozzle of every purpose.
func TestShippedRigsServeEverySize(t *testing.T) {
	t.Parallel()
	for name, r := range shipped(t) {
		for _, size := range unit.Sizes() {
			if size < 1.5 || size > 8 {
				continue
			}
			assert.True(t, slices.ContainsFunc(r.Hoses, func(h Hose) bool {
				return h.MinPipe <= size && size <= h.MaxPipe
			}), "%s: a hose for %v in", name, size)
			for _, p := range Purposes() {
				if size < 3 && (p == Spinning || p == RootCutting) {
					continue
				}
				assert.True(t, slices.ContainsFunc(r.Nozzles, func(n Nozzle) bool {
					return n.MinPipe <= size && size <= n.MaxPipe && slices.Contains(n.Purposes, p)
				}), "%s: a %s nozzle for %v in", name, p, size)
			}
		}
	}
}

// Facts of the trade that the shipped rigs keep to; common practice, none has
// a published source.
func TestShippedRigsKeepToCommonPractice(t *testing.T) {
	t.Parallel()
	for name, r := range shipped(t) {
		assert.InEpsilon(t, float64(r.Tank.Volume)/2, float64(r.Tank.Start), 1e-3,
			"%s: a low-water stop keeps the engine from starting below half a tank", name)
		assert.True(t, r.Tank.ArrivesFull, "%s: tow full or empty", name)
		for _, h := range r.Hoses {
			switch bore := h.Bore.Inches(); {
			case bore > 0.45:
				assert.Equal(t, []unit.Size{4, 12}, []unit.Size{h.MinPipe, h.MaxPipe}, "%s: half-inch hose", name)
				assert.InEpsilon(t, 400, h.Length.Feet(), 0.05, "%s: 400 ft is an ordinary reel", name)
			case bore > 0.3:
				assert.Equal(t, []unit.Size{3, 8}, []unit.Size{h.MinPipe, h.MaxPipe}, "%s: 3/8 in hose", name)
			}
			assert.InDelta(t, 60, h.BranchTurn.Degrees(), 10, "%s: into a wye, not into a tee", name)
		}
	}
	// Jet pumps of drain trailers, published: up to 206 bar at 45 to 55 L/min
	// (PMC6579780, figure 1); the shipped ones are of that kind.
	for name, r := range shipped(t) {
		assert.InEpsilon(t, 206, r.Pump.Rated.Bar(), 0.35, name)
		assert.InEpsilon(t, 50, r.Pump.Flow.LitresPerMinute(), 0.45, name)
	}
}
