package site

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRigStandsAlone(t *testing.T) {
	names, err := DefaultRigs()
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, name := range names {
		r, err := DefaultRig(name)
		require.NoError(t, err)
		data, err := EncodeRig(r)
		require.NoError(t, err)
		back, err := DecodeRig(data)
		require.NoError(t, err)
		assert.Equal(t, r, back)
		again, err := EncodeRig(back)
		require.NoError(t, err)
		assert.Equal(t, string(data), string(again))
	}
}

func TestHostileRigs(t *testing.T) {
	r, err := DefaultRig("us")
	require.NoError(t, err)
	sound, err := EncodeRig(r)
	require.NoError(t, err)
	replace := func(old, new string) []byte {
		require.Contains(t, string(sound), old)
		return []byte(strings.Replace(string(sound), old, new, 1))
	}
	for _, c := range []struct {
		name string
		data []byte
		want string
	}{
		{"nothing", nil, ""},
		{"no JSON", []byte("rig"), ""},
		{"a list", []byte("[]"), "a list"},
		{"a site", []byte(`{"linemap": 1}`), "pump: found nothing"},
		{"too large", bytes.Repeat([]byte(" "), MaxRigBytes+1), "at most 8388608 bytes"},
		{"pump without flow", replace(`"flow": 45.4249`, `"flow": 0`), "pump.flow: found 0 L/min, must be a number from 1 to 10000 L/min"},
		{"two hoses of one id", replace(`"three-eighths"`, `"half"`), `hoses[1].id: found "half" a second time`},
		{"cut short", sound[:len(sound)/2], ""},
		{"more after it", append(bytes.Clone(sound), "{}"...), "more text after the document"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := DecodeRig(c.data)
			assert.Nil(t, r)
			require.ErrorContains(t, err, c.want)
		})
	}
	r.Hoses[0].Bore = 0
	_, err = EncodeRig(r)
	require.ErrorContains(t, err, "hoses[half].bore")
}

func FuzzDecodeRig(f *testing.F) {
	names, err := DefaultRigs()
	require.NoError(f, err)
	for _, name := range names {
		r, err := DefaultRig(name)
		require.NoError(f, err)
		data, err := EncodeRig(r)
		require.NoError(f, err)
		f.Add(data)
	}
	f.Add([]byte("{}"))
	f.Add([]byte(`{"hoses": [{}, {"id": 1}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := DecodeRig(data)
		if err != nil {
			return
		}
		again, err := EncodeRig(r)
		require.NoError(t, err, "what was read can be written")
		back, err := DecodeRig(again)
		require.NoError(t, err)
		require.Equal(t, r, back)
	})
}
