package site

import (
	"testing"

	"github.com/go-json-experiment/json"
	"github.com/stretchr/testify/require"
)

// FuzzDecode asks that no text makes the loader panic, and that what it takes
// is stable: written and read again it gives the same document and the same
// bytes.
func FuzzDecode(f *testing.F) {
	f.Add([]byte(whole))
	f.Add([]byte(strange()))
	f.Add([]byte(`{"linemap": 1, "job": {}, "network": {"nodes": [{"id": 7}], "pipes": [null]}}`))
	f.Add([]byte(`{"linemap":1,"job":{"title":""},"units":"us","paper":"a4","code":"","network":{"nodes":[],"pipes":[]},"spots":[],"x":[[[[]]]]}`))
	f.Add([]byte(`{"linemap":1,"job":{"title":""},"units":"us","paper":"a4","code":"","network":{"nodes":[],"pipes":[]},"spots":[],"by_hand":{"x":1},"rig":{}}`))
	f.Add([]byte(`{"linemap":1,"prices":{"currency":"USD","units":"us","water":"0.00","minimum":1e9,"rates":[{"up_to":4,"amount":"-0"}]}}`))
	f.Add([]byte(`{"linemap":1,"underlays":[{"id":"u","at":{"x":0,"y":0},"scale":1,"data":"A==="},{"id":"v","file":"a/../../b"}],"by_hand":{"keep":[{}],"bar":null}}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Decode(data)
		if err != nil {
			require.Nil(t, s)
			require.NotEmpty(t, err.Error())
			return
		}
		first, err := Encode(s)
		require.NoError(t, err)
		back, err := Decode(first)
		require.NoError(t, err, string(first))
		require.Equal(t, s, back)
		second, err := Encode(back)
		require.NoError(t, err)
		require.Equal(t, string(first), string(second))
	})
}

// FuzzQuantity asks that a number settles in whatever form a file has it.
func FuzzQuantity(f *testing.F) {
	for _, text := range []string{"0", "-0", "1e-400", "12.70", "45.424941408", "1E3", "9007199254740993", "0.1"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := readQuantities(text)
		if err != nil {
			return
		}
		first, err := EncodeValue(v)
		if err != nil {
			return // a figure beyond what a float holds
		}
		var back quantities
		require.NoError(t, json.Unmarshal(first, &back, decoding))
		second, err := EncodeValue(back)
		require.NoError(t, err)
		require.Equal(t, string(first), string(second))
	})
}
