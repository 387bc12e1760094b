package sample_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/route/sample"
	"linemap/internal/site"
)

// However odd, a wild site is one that a file can hold, and has loops at times.
func TestWildFitsAFile(t *testing.T) {
	looped := 0
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 1))
		s := sample.Wild(r, 1+r.IntN(8))
		data, err := site.Encode(s)
		require.NoError(t, err)
		_, err = site.Decode(data)
		require.NoError(t, err, "seed %d", seed)
		if loops(s) > 0 {
			looped++
		}
	}
	assert.Greater(t, looped, 50)
}
