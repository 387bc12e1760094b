package rig

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/unit"
)

// system is the interpreter that Debian's python3-fluids installs into;
// another python3 on the path may not see it.
const system = "/usr/bin/python3"

// script reads cases as JSON, answers them with the library fluids and writes
// the answers, in one process. The operating point and the depth are found by
// plain halving, so that only the library's formulas are trusted.
const script = `
import json, math, sys
from fluids import V_Manning, friction_factor

ask = json.load(sys.stdin)

def loss(c, q):
    v = q / (math.pi / 4 * c["Bore"] ** 2)
    re = c["Density"] * v * c["Bore"] / c["Viscosity"]
    f = friction_factor(Re=re, eD=c["Roughness"] / c["Bore"], Method="Colebrook")
    return f, f * c["Length"] / c["Bore"] * c["Density"] * v * v / 2

def halve(lo, hi, high):
    for _ in range(200):
        mid = (lo + hi) / 2
        if high(mid):
            hi = mid
        else:
            lo = mid
    return lo

def operate(c):
    pump = lambda q: loss(c, q)[1] + c["Density"] / 2 * (q / c["Area"]) ** 2
    return halve(0, 1, lambda q: pump(q) > c["Pump"])

def part_full(c):
    def state(depth):
        theta = 2 * math.acos(1 - 2 * depth)
        area = c["Bore"] ** 2 * (theta - math.sin(theta)) / 8
        return area, V_Manning(Rh=area / (theta * c["Bore"] / 2), S=c["Slope"], n=c["Manning"])
    def flow(depth):
        area, v = state(depth)
        return area * v
    depth = halve(1e-6, 0.938, lambda d: flow(d) > c["Flow"])
    return [depth, state(depth)[1]]

json.dump({
    "Loss": [loss(c, c["Flow"]) for c in ask["Loss"]],
    "Operate": [operate(c) for c in ask["Operate"]],
    "PartFull": [part_full(c) for c in ask["PartFull"]],
}, sys.stdout)
`

type (
	libraryLoss struct {
		Flow, Bore, Length, Roughness float64
		Density, Viscosity            float64
		Area, Pump, Celsius           float64 // for an operating point
	}
	libraryPartFull struct{ Flow, Bore, Slope, Manning float64 }
	libraryCases    struct {
		Loss, Operate []libraryLoss
		PartFull      []libraryPartFull
	}
)

func (c libraryLoss) water() Water {
	return Water{unit.Density(c.Density), unit.Viscosity(c.Viscosity)}
}

func libraryAsk() libraryCases {
	var ask libraryCases
	for _, celsius := range []unit.Temperature{2, 10, 20, 35} {
		w := WaterAt(celsius)
		for _, bore := range []float64{0.00635, 0.009525, 0.0127, 0.01905} {
			for _, roughness := range []float64{0, 1.5e-6, 1e-5} {
				c := libraryLoss{
					Bore: bore, Length: 100, Roughness: roughness,
					Density: float64(w.Density), Viscosity: float64(w.Viscosity),
					Area: 4e-6, Pump: 2e7, Celsius: float64(celsius),
				}
				if roughness > 0 { // a hose that names no roughness is not smooth
					ask.Operate = append(ask.Operate, c)
				}
				for _, flow := range []float64{5e-6, 1e-4, 7.57e-4, 2e-3} {
					c.Flow = flow
					ask.Loss = append(ask.Loss, c)
				}
			}
		}
	}
	for _, bore := range []float64{0.05, 0.1, 0.2} {
		for _, slope := range []float64{0.005, 0.0104, 0.0208, 0.05} {
			for _, flow := range []float64{1e-4, 7.57e-4, 1.2e-3} {
				ask.PartFull = append(ask.PartFull, libraryPartFull{flow, bore, slope, 0.013})
			}
		}
	}
	return ask
}

func TestAgainstLibrary(t *testing.T) {
	t.Parallel()
	if _, err := os.Stat(system); err != nil {
		t.Skipf("no %s to ask the fluid mechanics library with", system)
	}
	if out, err := exec.Command(system, "-c", "import fluids").CombinedOutput(); err != nil {
		t.Skipf("%s has no library fluids (Debian: apt-get install python3-fluids): %s", system, out)
	}
	ask := libraryAsk()
	in, err := json.Marshal(ask)
	require.NoError(t, err)
	cmd := exec.Command(system, "-c", script)
	cmd.Stdin, cmd.Stderr = strings.NewReader(string(in)), os.Stderr
	out, err := cmd.Output()
	require.NoError(t, err)
	var answer struct {
		Loss, PartFull [][2]float64
		Operate        []float64
	}
	require.NoError(t, json.Unmarshal(out, &answer))
	require.Len(t, answer.Loss, len(ask.Loss))
	require.Len(t, answer.Operate, len(ask.Operate))
	require.Len(t, answer.PartFull, len(ask.PartFull))

	for i, c := range ask.Loss {
		re := c.Density * c.Flow / (math.Pi / 4 * c.Bore) / c.Viscosity
		assert.InEpsilon(t, answer.Loss[i][0], FrictionFactor(re, c.Roughness/c.Bore), 1e-9, "friction %+v", c)
		got := HoseLoss(unit.Flow(c.Flow), unit.Length(c.Bore), unit.Length(c.Length), unit.Length(c.Roughness), c.water())
		assert.InEpsilon(t, answer.Loss[i][1], float64(got), 1e-9, "loss %+v", c)
	}
	for i, c := range ask.Operate {
		r := bench(1, unit.Pressure(c.Pump)) // a pump that only its unloader limits
		r.Water = unit.Temperature(c.Celsius)
		h := &Hose{
			Bore: unit.Length(c.Bore), Length: unit.Length(c.Length),
			Roughness: unit.Length(c.Roughness), Working: unit.Pressure(c.Pump),
		}
		op, _, err := r.Operate(h, hole(unit.Length(math.Sqrt(4*c.Area/math.Pi)), 1, 0), 0)
		require.NoError(t, err)
		assert.InEpsilon(t, answer.Operate[i], float64(op.Flow), 1e-9, "operate %+v", c)
	}
	full := 0
	for i, c := range ask.PartFull {
		got := CarryAt(unit.Flow(c.Flow), unit.Length(c.Bore), unit.Slope(c.Slope), c.Manning)
		if got.Full {
			full++
			continue
		}
		assert.InEpsilon(t, answer.PartFull[i][0], got.Depth, 1e-8, "depth %+v", c)
		assert.InEpsilon(t, answer.PartFull[i][1], float64(got.Velocity), 1e-8, "speed %+v", c)
	}
	assert.Less(t, full, len(ask.PartFull)/2, "most cases are part full")
}
