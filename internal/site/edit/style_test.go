package edit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestUsualStyle(t *testing.T) {
	s, err := site.New(unit.US)
	require.NoError(t, err)
	bare := edit.UsualStyle(s)
	assert.Equal(t, network.BuildingDrain, bare.Class)
	require.NoError(t, bare.Check())
	pipe := func(class network.PipeClass, size unit.Size) network.Pipe {
		return network.Pipe{Class: class, Size: size, Material: network.Clay, Deposit: network.Roots}
	}
	s.Network.Pipes = []network.Pipe{
		pipe(network.Stack, 3), pipe(network.Stack, 3), pipe(network.Stack, 3),
		pipe(network.Branch, 2), pipe(network.Branch, 6), pipe(network.Branch, 6),
	}
	like := edit.UsualStyle(s)
	assert.Equal(t, network.Branch, like.Class, "stacks are many, and do not lie")
	assert.Equal(t, unit.Size(6), like.Size)
	assert.Equal(t, network.Clay, like.Material)
	assert.Equal(t, network.Roots, like.Deposit)
}

func TestStylesThatNoFileKeeps(t *testing.T) {
	style := edit.UsualStyle(&site.Site{})
	steep := unit.Slope(math.Inf(1))
	style.Slope = &steep
	assert.ErrorContains(t, style.Check(), "slope")
	style.Slope, style.Material = nil, "glass"
	assert.ErrorContains(t, style.Check(), `material: found "glass"`)
}
