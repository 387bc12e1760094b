package chart

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/export/drawing"
)

// TestCutOut cuts an elbow of 30 and 10 mm.
func TestCutOut(t *testing.T) {
	line := []drawing.Point{{}, {X: 30}, {X: 30, Y: 10}}
	for _, c := range []struct {
		name     string
		from, to float64
		want     []drawing.Point
	}{
		{"whole", 0, 1, line},
		{"more than whole", -1, 2, line},
		{"first half", 0, 0.5, []drawing.Point{{}, {X: 20}}},
		{"about the corner", 0.5, 0.875, []drawing.Point{{X: 20}, {X: 30}, {X: 30, Y: 5}}},
		{"behind the corner", 0.875, 1, []drawing.Point{{X: 30, Y: 5}, {X: 30, Y: 10}}},
		{"to the corner", 0, 0.75, []drawing.Point{{}, {X: 30}}},
		{"nothing is told as whole", 0.6, 0.4, line},
	} {
		assert.Equal(t, c.want, cutOut(line, c.from, c.to), c.name)
	}
	stack := []drawing.Point{{X: 3}, {X: 3}}
	assert.Equal(t, stack, cutOut(stack, 0.2, 0.5), "a stack is a point")
	assert.InDelta(t, 40, lengthOf(cutOut(line, 0, 0.3))+lengthOf(cutOut(line, 0.3, 1)), 1e-9)
}
