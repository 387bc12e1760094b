package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/unit"
)

func TestProblems(t *testing.T) {
	t.Parallel()
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name  string
		spoil func(r *Rig)
		field string // of the only problem
		limit string // part of it
	}{
		{"pump without flow", func(r *Rig) { r.Pump.Flow = 0 }, "pump.flow", "above 0"},
		{"pump of endless flow", func(r *Rig) { r.Pump.Flow = unit.Flow(inf) }, "pump.flow", "above 0"},
		{"unloader above the rated pressure", func(r *Rig) { r.Pump.Unloader = r.Pump.Rated * 1.1 }, "pump.unloader", "rated 4000 psi (276 bar)"},
		{"unloader shut", func(r *Rig) { r.Pump.Unloader = 0 }, "pump.unloader", "above 0"},
		{"start above the brim", func(r *Rig) { r.Tank.Start = r.Tank.Volume * 2 }, "tank.start", "tank's 330 gal"},
		{"stop at the start level", func(r *Rig) { r.Tank.Stop = r.Tank.Start }, "tank.stop", "below the start level"},
		{"stop below nothing", func(r *Rig) { r.Tank.Stop = -1 }, "tank.stop", "0 or more"},
		{"a tank that never empties", func(r *Rig) { r.Tank.Drain = 0 }, "tank.drain", "above 0"},
		{"supply hose of negative length", func(r *Rig) { r.Supply.Length = -1 }, "supply.length", "0 or more"},
		{"fill of no number", func(r *Rig) { r.Supply.MaxFlow = unit.Flow(nan) }, "supply.max_flow", "0 or more"},
		{"plumbing without bore", func(r *Rig) { r.Plumbing.Bore = 0 }, "plumbing.bore", "above 0"},
		{"ice", func(r *Rig) { r.Water = -1 }, "water_temperature", "from 0 to 60 C"},
		{"water of no number", func(r *Rig) { r.Water = unit.Temperature(nan) }, "water_temperature", "from 0 to 60 C"},
		{"no hose", func(r *Rig) { r.Hoses = nil }, "hoses", "one or more"},
		{"no nozzle", func(r *Rig) { r.Nozzles = nil }, "nozzles", "one or more"},
		{"two hoses of one id", func(r *Rig) { r.Hoses[1].ID = r.Hoses[0].ID }, "hoses[half].id", "once only"},
		{"a hose without id", func(r *Rig) { r.Hoses[1].ID = "" }, "hoses[1].id", "given"},
		{"hose without length", func(r *Rig) { r.Hoses[0].Length = 0 }, "hoses[half].length", "above 0"},
		{"reserve below nothing", func(r *Rig) { r.Hoses[0].Reserve = -1 }, "hoses[half].reserve", "0 or more"},
		{"all of the hose in reserve", func(r *Rig) { r.Hoses[0].Reserve = r.Hoses[0].Length }, "hoses[half].reserve", "below the hose's 400 ft"},
		{"hose rougher than the chart", func(r *Rig) { r.Hoses[0].Roughness = 0.001 }, "hoses[half].roughness", "a twentieth of the bore"},
		{"hose as wide as its pipe", func(r *Rig) { r.Hoses[2].Bore = unit.Inches(1.5) }, "hoses[quarter].min_pipe", "above the bore"},
		{"hose without working pressure", func(r *Rig) { r.Hoses[0].Working = 0 }, "hoses[half].working_pressure", "above 0"},
		{"weightless hose", func(r *Rig) { r.Hoses[0].Mass = 0 }, "hoses[half].mass", "above 0"},
		{"spread of the whole mass", func(r *Rig) { r.Hoses[0].MassSpread = 1 }, "hoses[half].mass_spread", "below 1"},
		{"a size that is none", func(r *Rig) { r.Hoses[0].MaxPipe = 13 }, "hoses[half].max_pipe", "nominal size"},
		{"sizes upside down", func(r *Rig) { r.Hoses[0].MinPipe, r.Hoses[0].MaxPipe = 12, 4 }, "hoses[half].max_pipe", "at least the smallest, 12 in"},
		{"bends below nothing", func(r *Rig) { r.Hoses[0].Bends = -1 }, "hoses[half].bends", "0 or more"},
		{"a turn back on itself", func(r *Rig) { r.Hoses[0].Sharpest = unit.Degrees(270) }, "hoses[half].sharpest", "from 0 to 180 degrees"},
		{"nozzle for nothing", func(r *Rig) { r.Nozzles[0].Purposes = nil }, "nozzles[puller].purposes", "one or more"},
		{"nozzle for something else", func(r *Rig) { r.Nozzles[0].Purposes = []Purpose{"washing"} }, "nozzles[puller].purposes", "root_cutting"},
		{"nozzle without orifice", func(r *Rig) { r.Nozzles[0].Orifices = nil }, "nozzles[puller].orifices", "one or more"},
		{"nozzle without rear jets", func(r *Rig) { r.Nozzles[0].Orifices[0].Facing = Front }, "nozzles[puller].orifices", "more pull from the rear jets"},
		{"front jets that win", func(r *Rig) { r.Nozzles[1].Orifices[0].Count = 12 }, "nozzles[penetrator].orifices", "more pull from the rear jets"},
		{"orifice without a hole", func(r *Rig) { r.Nozzles[1].Orifices[0].Count = 0 }, "nozzles[penetrator].orifices[0].count", "above 0"},
		{"orifice across", func(r *Rig) { r.Nozzles[1].Orifices[0].Angle = 2 }, "nozzles[penetrator].orifices[0].angle", "from 0 to 90"},
		{"orifice facing sideways", func(r *Rig) { r.Nozzles[0].Orifices[0].Facing = "side" }, "nozzles[puller].orifices[0].facing", "rear or front"},
		{"discharge above 1", func(r *Rig) { r.Nozzles[0].Discharge = 1.1 }, "nozzles[puller].discharge", "at most 1"},
		{"nozzle lighter than air", func(r *Rig) { r.Nozzles[0].Mass = -1 }, "nozzles[puller].mass", "0 or more"},
		{"nobody", func(r *Rig) { r.Crew.People = 0 }, "crew.people", "1 or more"},
		{"set-up in no time", func(r *Rig) { r.Crew.SetUp = -1 }, "crew.set_up_minutes", "0 or more"},
		{"endless set-up", func(r *Rig) { r.Crew.SetUp = inf }, "crew.set_up_minutes", "less than 1000h"},
		{"a crew that stands still", func(r *Rig) { r.Crew.Travel = 0 }, "crew.travel_speed", "above 0"},
		{"no stroke", func(r *Rig) { r.Crew.Stroke = 0 }, "crew.stroke", "above 0"},
		{"faster downstream than no time", func(r *Rig) { r.Crew.Downstream = -2 }, "crew.downstream_extra", "0 or more"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			r := shipped(t)["us"]
			c.spoil(r)
			found := r.Problems()
			require.Len(t, found, 1, "%v", found)
			assert.Equal(t, c.field, found[0].Field)
			assert.Contains(t, found[0].Limit, c.limit)
			assert.NotEmpty(t, found[0].Value)
			assert.True(t, found[0].Stops)
			assert.Contains(t, found[0].String(), c.field)
		})
	}
}

func TestProblemsThatStopNothing(t *testing.T) {
	t.Parallel()
	r := shipped(t)["us"]
	r.Hoses[0].BranchTurn = unit.Degrees(120)
	r.Nozzles[0].MinPipe, r.Nozzles[0].MaxPipe = 15, 18
	found := r.Problems()
	require.Len(t, found, 2)
	assert.False(t, found[0].Stops)
	assert.Equal(t, `hoses[half].branch_turn "1/2 in x 400 ft": 120 degrees, must be at most the sharpest turn, 90 degrees`,
		found[0].String())
	assert.False(t, found[1].Stops)
	assert.Equal(t, `nozzles[puller].min_pipe "Puller, 6 rear": 15 in to 18 in, must be a range that some hose shares`,
		found[1].String())
}

// A rig of nothing is all problems, and none of the functions minds.
func TestEmptyRig(t *testing.T) {
	t.Parallel()
	var r Rig
	assert.Greater(t, len(r.Problems()), 10)
	assert.NotPanics(t, func() {
		_, _, err := r.Operate(&Hose{}, &Nozzle{}, 0)
		assert.Error(t, err)
		Drag([]Step{{}}, &Hose{}, Water{}, LowReach)
		_, _ = r.Tank.Need(0, 0, 0)
	})
}
