package main

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
)

// Names of the site file stand within their line and leave the terminal alone.
func TestFindingsOfHostileNames(t *testing.T) {
	got := findingsText([]network.Finding{{
		Gravity: network.Warning, Place: "P\x1b[2J", What: "a\nerror: b", Value: "c\x07", Cure: "d\r\u009b",
	}})
	assert.Equal(t, "warning: P [2J: a error: b\n    found c \n    Cure: d  \n\n0 errors, 1 warning, 0 pieces of advice.\n", got)
}
