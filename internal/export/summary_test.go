package export

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A site file may come from anyone: its names neither break a line of the
// terminal nor command it (ECMA-48 begins a command with ESC or with U+009B).
func TestSummaryOfHostileNames(t *testing.T) {
	const hostile = "A\x1b[2J\u009b31m\r\nB\tC\x00"
	s, p := fixtureSite(), fixturePlan()
	lines := strings.Count(Summary(s, fixtureTables(), p, Options{}), "\n")
	s.Job.Title = hostile
	for i := range s.Network.Nodes {
		s.Network.Nodes[i].Label = hostile
	}
	for i := range s.Network.Pipes {
		s.Network.Pipes[i].Label = hostile
	}
	for i := range s.Spots {
		s.Spots[i].Label = hostile
	}
	for i := range s.Rig.Hoses {
		s.Rig.Hoses[i].Name = hostile
	}
	got := Summary(s, fixtureTables(), p, Options{})
	assert.Contains(t, got, "A [2J 31m  B C ")
	assert.NotContains(t, strings.Map(func(r rune) rune {
		if r != '\n' && (r < ' ' || r >= 0x7f && r < 0xa0) {
			return '!'
		}
		return 0
	}, got), "!")
	assert.Equal(t, lines, strings.Count(got, "\n"))
}
