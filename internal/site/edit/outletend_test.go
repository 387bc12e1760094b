package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// An outlet placed at the end of a pipe, with the pipe named and not the node,
// turns the flow as one placed on the node does, and the fittings follow.
func TestOutletAtTheEndOfAPipeTurnsTheFittings(t *testing.T) {
	for _, by := range []string{"node", "pipe"} {
		s, err := site.New(unit.US)
		require.NoError(t, err)
		s.Network = *sketch.Must("CAP1 -40ft- W1 -20ft- CAP2 ; W1 ~15ft- CAP3")
		end := s.Network.Nodes[3] // what was the branch is the way out then
		at := edit.Anchor{At: end.At, Node: end.ID}
		if by == "pipe" {
			at = edit.Anchor{At: end.At, Pipe: s.Network.Pipes[2].ID}
		}
		e, err := edit.PlaceNode(s, at, network.KindOutlet, edit.PipeStyle{Size: 4})
		require.NoError(t, err, by)
		e.Do(s)
		g, _ := network.Trace(&s.Network)
		for _, f := range g.Findings(network.Code{}, nil) {
			assert.NotEqual(t, "junction_branches", f.Kind, "%s: %s %s", by, f.Place, f.What)
		}
	}
}
