package sample_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/route/sample"
)

func TestStreetsAreSound(t *testing.T) {
	for _, pipes := range []int{100, 300, 1000, 3000} {
		for seed := range uint64(2) {
			t.Run(fmt.Sprintf("%d pipes, seed %d", pipes, seed), func(t *testing.T) {
				s := sample.Streets(seed, pipes)
				sound(t, s)
				assert.InDelta(t, pipes, len(s.Network.Pipes), 5)
				assert.Zero(t, loops(s))
				assert.Equal(t, s, sample.Streets(seed, pipes))
				looped := sample.LoopedStreets(seed, pipes)
				sound(t, looped)
				if pipes >= 1000 {
					assert.Positive(t, loops(looped))
				}
			})
		}
	}
}

// A district of the largest size fits a site file and is one drain for each of
// its outlets.
func TestStreetsOfTheLargestSize(t *testing.T) {
	if testing.Short() {
		t.Skip("large")
	}
	s := sample.Streets(1, 100_000)
	assert.InEpsilon(t, 100_000, len(s.Network.Pipes), 0.01)
	assert.LessOrEqual(t, len(s.Spots), 1000)
	assert.LessOrEqual(t, len(s.Water), 1000)
	g, findings := network.Trace(&s.Network)
	assert.Len(t, g.Outlets, 9)
	for _, f := range findings {
		assert.NotEqual(t, network.Error, f.Gravity, "%s: %s", f.Place, f.What)
	}
}

func BenchmarkStreets(b *testing.B) {
	for _, pipes := range []int{1000, 10_000, 100_000} {
		b.Run(fmt.Sprint(pipes), func(b *testing.B) {
			for b.Loop() {
				sample.Streets(1, pipes)
			}
		})
	}
}
