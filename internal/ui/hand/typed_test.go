package hand

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/unit"
)

func TestTypedLength(t *testing.T) {
	for _, c := range []struct {
		text  string
		units unit.System
		want  unit.Length // 0 for an error
	}{
		{"12", unit.US, unit.Feet(12)},
		{"12.5", unit.US, unit.Feet(12.5)},
		{"12 6", unit.US, unit.Feet(12.5)},
		{"12-6", unit.US, unit.Feet(12.5)},
		{"12'6", unit.US, unit.Feet(12.5)},
		{`12' 6"`, unit.US, unit.Feet(12.5)},
		{"12ft 6in", unit.US, unit.Feet(12.5)},
		{"12 6 1/2", unit.US, unit.Feet(12) + unit.Inches(6.5)},
		{"12-6 1/2", unit.US, unit.Feet(12) + unit.Inches(6.5)},
		{"6 1/2", unit.US, unit.Feet(6.5)},
		{"8in", unit.US, unit.Inches(8)},
		{"3.2m", unit.US, unit.Metres(3.2)},
		{"1,200", unit.US, unit.Feet(1200)},
		{"12", unit.Metric, unit.Metres(12)},
		{"3,25", unit.Metric, unit.Metres(3.25)},
		{"320 cm", unit.Metric, unit.Metres(3.2)},
		{"40ft", unit.Metric, unit.Feet(40)},
		{"12 6", unit.Metric, 0},
		{"12 6 7", unit.US, 0},
		{"12.5 6", unit.US, 0},
		{"0", unit.US, 0},
		{"-3", unit.US, 0},
		{"-", unit.US, 0},
		{"", unit.US, 0},
		{"1e9", unit.US, 0},
		{"12 parsecs", unit.US, 0},
	} {
		l, err := typedLength(c.text, c.units)
		if c.want == 0 {
			assert.Error(t, err, c.text)
			continue
		}
		assert.NoError(t, err, c.text)
		assert.InDelta(t, c.want.Metres(), l.Metres(), 1e-9, "%s %s", c.text, c.units)
	}
}

func TestTypedTurn(t *testing.T) {
	for text, want := range map[string]float64{
		"45": 45, "45l": 45, "45 left": 45, "L45": 45, "45r": -45, "45R": -45, "-45": -45, "right 22.5": -22.5, "-45r": 45,
		"1/8": 45, "1/8r": -45, "1/4 bend": 90, "22.5°": 22.5, "180": 180, "0": 0,
	} {
		a, err := typedTurn(text)
		assert.NoError(t, err, text)
		assert.InDelta(t, want, a.Degrees(), 1e-9, text)
	}
	for _, text := range []string{"", "r", "181", "1/0", "45x", "--4", "bend"} {
		_, err := typedTurn(text)
		assert.Error(t, err, text)
	}
}

func TestTypedBearing(t *testing.T) {
	h, err := typedBearing("135")
	assert.NoError(t, err)
	assert.InDelta(t, 135, h.Bearing(), 1e-9)
	for _, text := range []string{"", "361", "north"} {
		_, err := typedBearing(text)
		assert.Error(t, err, text)
	}
}

func TestTypedTakesWhatBelongsToAFigure(t *testing.T) {
	for _, c := range []struct {
		keys                string
		length, turn        string
		left                int // characters that were not taken
		turning, backLeaves bool
	}{
		{keys: "12-6", length: "12-6", backLeaves: true},
		{keys: "c12", length: "12", left: 1, backLeaves: true},
		{keys: "12ftz", length: "12ft", left: 1, backLeaves: true},
		{keys: "12<45r", length: "12", turn: "45r", turning: true, backLeaves: true},
		{keys: "@1/8", turn: "1/8", turning: true, backLeaves: true},
		{keys: "123456789012345678901234567890", length: "123456789012345678901234", backLeaves: true},
		{keys: "p", left: 1},
	} {
		var v typed
		left := 0
		for _, r := range c.keys {
			if !v.add(r) {
				left++
			}
		}
		assert.Equal(t, []any{c.length, c.turn, c.left, c.turning}, []any{v.length, v.turn, left, v.turning}, c.keys)
		assert.Equal(t, c.backLeaves, v.back(), c.keys)
		for v.back() {
		}
		assert.True(t, v.empty(), c.keys)
	}
}

func FuzzTyped(f *testing.F) {
	for _, s := range []string{"12-6", "12 6 1/2", "1/8r", "3,2m", "r", "l/", "9 -", "°", "\x80"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, u := range []unit.System{unit.US, unit.Metric} {
			if l, err := typedLength(s, u); err == nil && !(l > 0 && !math.IsInf(l.Metres(), 0)) {
				t.Errorf("%q reads as %v", s, l)
			}
		}
		if a, err := typedTurn(s); err == nil && !(math.Abs(a.Degrees()) <= 180) {
			t.Errorf("%q turns %v", s, a)
		}
		var v typed
		for _, r := range s {
			v.add(r)
		}
		for v.back() {
		}
		if !v.empty() {
			t.Errorf("%q leaves %v", s, v)
		}
	})
}
