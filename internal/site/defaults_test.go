package site

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/unit"
)

func TestDefaultRigs(t *testing.T) {
	names, err := DefaultRigs()
	require.NoError(t, err)
	assert.Contains(t, names, string(unit.US))
	assert.Contains(t, names, string(unit.Metric))
	for _, name := range names {
		r, err := DefaultRig(name)
		require.NoError(t, err, name)
		assert.Empty(t, r.Problems(), name)
	}
	_, err = DefaultRig("rocket")
	assert.ErrorContains(t, err, `default rig "rocket"`)
	_, err = DefaultRig("../trade/cures")
	assert.Error(t, err, "a rig of another folder")
}

func TestNew(t *testing.T) {
	for units, paper := range map[unit.System]Paper{unit.US: Letter, unit.Metric: A4} {
		s, err := New(units)
		require.NoError(t, err)
		assert.Equal(t, paper, s.Paper)
		assert.Equal(t, units, s.Units)
		assert.Contains(t, tables(t).Codes, s.Code)
		data, err := Encode(s)
		require.NoError(t, err)
		back, err := Decode(data)
		require.NoError(t, err)
		assert.Equal(t, s, back)
	}
	_, err := New("cubits")
	assert.Error(t, err)
}

func TestDemo(t *testing.T) {
	_, err := Demo("nowhere")
	assert.ErrorContains(t, err, `demo site "nowhere"`)
}
