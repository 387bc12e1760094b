package audit

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/rig"
	"linemap/internal/unit"
)

func TestSeconds(t *testing.T) {
	walk := unit.MetresPerMinute(60)
	assert.Zero(t, seconds(0, walk))
	assert.InDelta(t, 30, seconds(30, walk), 1e-9)
	assert.Equal(t, rig.Longest.Seconds(), seconds(unit.Metres(280e3), unit.MetresPerMinute(1)), "a tow of half a year is none")
}
