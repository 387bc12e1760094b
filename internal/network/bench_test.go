package network_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
)

func TestDistrictIsSound(t *testing.T) {
	g, findings := network.Trace(district(1000))
	checkGraph(t, g)
	assert.Empty(t, findings)
	assert.Empty(t, kinds(g.Findings(network.Code{}, pvcOnly)))
}

func BenchmarkTrace(b *testing.B) {
	for name, pipes := range map[string]int{"10000": 10_000, "100000": 100_000} {
		b.Run(name, func(b *testing.B) {
			n := district(pipes)
			for b.Loop() {
				network.Trace(n)
			}
		})
	}
}

func BenchmarkFindings(b *testing.B) {
	for name, pipes := range map[string]int{"10000": 10_000, "100000": 100_000} {
		b.Run(name, func(b *testing.B) {
			g, _ := network.Trace(district(pipes))
			for b.Loop() {
				g.Findings(ipc, pvcOnly)
			}
		})
	}
}

// BenchmarkPassage crosses every node once each way.
func BenchmarkPassage(b *testing.B) {
	g, _ := network.Trace(district(10_000))
	for b.Loop() {
		for p, next := range g.Next {
			if next >= 0 {
				g.Passage(next, p)
				g.Passage(p, next)
			}
		}
	}
}
