package rig

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/unit"
)

// bench is a rig of one pump, with water at 20 C.
func bench(q unit.Flow, p unit.Pressure) *Rig {
	return &Rig{Pump: Pump{Flow: q, Rated: p, Unloader: p}, Water: 20}
}

func TestOperateCoupled(t *testing.T) {
	t.Parallel()
	// 3000 psi pump, 3/8 in x 200 ft, six 0.040 in holes of Cd 0.9, computed with
	// fluids 1.0.22 for water of 998.2 kg/m3 and 1.002 mPa s.
	r := bench(unit.GallonsPerMinute(20), unit.Psi(3000))
	h := &Hose{Bore: unit.Inches(0.375), Length: unit.Feet(200), Working: unit.Psi(4000)}
	jets := []Orifice{{Count: 6, Diameter: unit.Inches(0.04), Facing: Rear}}
	n := &Nozzle{Discharge: 0.9, Orifices: jets}
	op, setting, err := r.Operate(h, n, 0)
	require.NoError(t, err)
	assert.InEpsilon(t, 11.709217, op.Flow.GallonsPerMinute(), 1e-5)
	assert.InEpsilon(t, 938.86732, op.Loss.Psi(), 1e-5)
	assert.InEpsilon(t, 2061.13268, op.Nozzle.Psi(), 1e-5)
	assert.InEpsilon(t, 3000, op.Pump.Psi(), 1e-12)
	assert.InEpsilon(t, 3000, setting.Psi(), 1e-12)

	// The same with the orifice constants as printed, 29.84 and 0.0526.
	printed := &Nozzle{Discharge: 0.9 * 29.84 / 29.851155, Orifices: jets}
	op, _, err = r.Operate(h, printed, 0)
	require.NoError(t, err)
	assert.InEpsilon(t, 11.706125, op.Flow.GallonsPerMinute(), 1e-5)
	assert.InEpsilon(t, 938.41535, op.Loss.Psi(), 1e-5)
	assert.InEpsilon(t, 2061.58465, op.Nozzle.Psi(), 1e-5)
	assert.InEpsilon(t, 27.95757, op.Thrust.PoundsForce()*0.0526/0.0526210, 1e-5)

	// The pump gives its rated flow while that takes less than the setting.
	r.Pump.Flow = unit.GallonsPerMinute(10)
	op, _, err = r.Operate(h, n, 0)
	require.NoError(t, err)
	assert.InEpsilon(t, 10, op.Flow.GallonsPerMinute(), 1e-12)
	assert.Less(t, op.Pump, unit.Psi(3000))

	// Plumbing is one more hose.
	longer := *h
	longer.Length += unit.Feet(50)
	r.Plumbing = Plumbing{Bore: h.Bore, Length: unit.Feet(50)}
	got, _, err := r.Operate(h, n, 0)
	require.NoError(t, err)
	r.Plumbing = Plumbing{}
	want, _, err := r.Operate(&longer, n, 0)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(want.Loss), float64(got.Loss), 1e-12)
}

func TestOperateSetting(t *testing.T) {
	t.Parallel()
	n := &Nozzle{Discharge: 0.9, Orifices: []Orifice{{Count: 6, Diameter: unit.Millimetres(0.9), Facing: Rear}}}
	for _, c := range []struct {
		name              string
		unloader, working float64 // psi
		ceiling           float64 // psi, at the nozzle
		setting           float64 // psi, 0 for less than the others
	}{
		{"the unloader limits", 3000, 4000, 0, 3000},
		{"the hose limits", 3000, 2000, 0, 2000},
		{"a ceiling that is never reached", 3000, 4000, 5000, 3000},
		{"a fragile pipe", 3000, 4000, 800, 0},
		{"no ceiling below zero", 3000, 4000, -1, 3000},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			r := bench(unit.GallonsPerMinute(14), unit.Psi(c.unloader))
			h := &Hose{Bore: unit.Inches(0.5), Length: unit.Feet(400), Working: unit.Psi(c.working)}
			op, setting, err := r.Operate(h, n, unit.Psi(c.ceiling))
			require.NoError(t, err)
			if c.setting > 0 {
				assert.InEpsilon(t, c.setting, setting.Psi(), 1e-12)
				return
			}
			assert.Less(t, setting.Psi(), min(c.unloader, c.working))
			assert.InEpsilon(t, c.ceiling, op.Nozzle.Psi(), 1e-9)
			// The setting alone, without the ceiling, gives the same state.
			r.Pump.Unloader = setting
			again, _, err := r.Operate(h, n, 0)
			require.NoError(t, err)
			assert.InEpsilon(t, float64(op.Flow), float64(again.Flow), 1e-9)
		})
	}
}

func TestOperateErrors(t *testing.T) {
	t.Parallel()
	hose := Hose{Name: "long", Bore: 0.01, Length: 100, Working: 1e7}
	jets := Nozzle{Name: "jets", Discharge: 0.9, Orifices: []Orifice{{1, 0.001, 0, Rear}}}
	pump := Pump{Flow: 0.001, Rated: 1e7, Unloader: 1e7}
	for _, c := range []struct {
		name   string
		pump   Pump
		hose   Hose
		nozzle Nozzle
		want   error
		names  string
	}{
		{"no flow", Pump{Unloader: 1e7}, hose, jets, ErrPump, "0 L/min"},
		{"no pressure", Pump{Flow: 1}, hose, jets, ErrPump, "0 bar"},
		{"endless flow", Pump{Flow: unit.Flow(math.Inf(1)), Unloader: 1}, hose, jets, ErrPump, "L/min"},
		{"no hose", pump, Hose{Name: "ghost"}, jets, ErrHose, "ghost"},
		{"no working pressure", pump, Hose{Name: "raw", Bore: 1, Length: 1}, jets, ErrHose, "raw"},
		{"no orifice", pump, hose, Nozzle{Name: "plug", Discharge: 1}, ErrNozzle, "plug"},
		{"no discharge", pump, hose, Nozzle{Name: "shut", Orifices: jets.Orifices}, ErrNozzle, "shut"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			r := &Rig{Pump: c.pump}
			_, _, err := r.Operate(&c.hose, &c.nozzle, 0)
			require.ErrorIs(t, err, c.want)
			assert.ErrorContains(t, err, c.names)
		})
	}
	_, _, err := (&Rig{Pump: pump}).Operate(&hose, &jets, 0)
	require.NoError(t, err, "the sound case beside the broken ones")
}

// anyRig draws a rig, a hose and a nozzle of figures that a trailer could have.
func anyRig(t *rapid.T) (*Rig, *Hose, *Nozzle) {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	r := bench(unit.LitresPerMinute(f("L/min", 5, 200)), unit.Bar(f("bar", 10, 300)))
	r.Water = unit.Temperature(f("water", 0, 40))
	r.Plumbing = Plumbing{Bore: unit.Millimetres(f("plumbing bore", 8, 30)), Length: unit.Length(f("plumbing", 0, 10))}
	h := &Hose{
		Bore:   unit.Millimetres(f("bore", 5, 30)),
		Length: unit.Length(f("length", 5, 250)), Working: unit.Bar(f("working", 10, 400)),
	}
	n := &Nozzle{Discharge: f("discharge", 0.5, 1), Orifices: []Orifice{
		{rapid.IntRange(1, 10).Draw(t, "rear"), unit.Millimetres(f("rear mm", 0.4, 3)), unit.Degrees(f("angle", 0, 60)), Rear},
		{rapid.IntRange(0, 2).Draw(t, "front"), unit.Millimetres(f("front mm", 0.4, 1)), 0, Front},
	}}
	return r, h, n
}

func TestOperateProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		r, h, n := anyRig(t)
		ceiling := unit.Bar(rapid.Float64Range(0, 300).Draw(t, "ceiling"))
		op, setting, err := r.Operate(h, n, ceiling)
		require.NoError(t, err)
		w := WaterAt(r.Water)

		require.Positive(t, float64(op.Flow))
		require.LessOrEqual(t, op.Flow, r.Pump.Flow)
		require.LessOrEqual(t, setting, min(r.Pump.Unloader, h.Working))
		require.LessOrEqual(t, op.Pump, setting)
		require.InEpsilon(t, float64(op.Pump), float64(op.Nozzle+op.Loss), 1e-12)
		require.InEpsilon(t, float64(op.Flow), float64(n.Flow(op.Nozzle, w)), 1e-12, "what the pump gives, the jets pass")
		if ceiling > 0 {
			require.LessOrEqual(t, float64(op.Nozzle), float64(ceiling)*(1+1e-12))
		}
		// Either the pump gives all it has, or a hair more flow would take more
		// than the setting. The two need not meet: where a flow turns turbulent
		// its loss jumps up, in a long thin hose by several bar.
		if op.Flow < r.Pump.Flow {
			l := line{&r.Plumbing, h, n, w}
			require.Greater(t, l.pump(op.Flow*(1+1e-9)), setting)
		}

		longer := *h
		longer.Length += unit.Length(rapid.Float64Range(0.1, 100).Draw(t, "longer by"))
		far, _, err := r.Operate(&longer, n, 0)
		require.NoError(t, err)
		near, _, err := r.Operate(h, n, 0)
		require.NoError(t, err)
		require.LessOrEqual(t, far.Flow, near.Flow, "a longer hose never gives more")
	})
}
