package route_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
	"linemap/internal/unit"
)

// Loops, parallel pipes, pipes from a node to itself, parts without outlet and
// nodes of the wrong kind give a plan all the same: every pipe of the job is
// cleaned once or explained.
func TestTangledNetworks(t *testing.T) {
	tab := sample.Tables()
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 5))
		s := sample.Random(r, rapid.IntRange(1, 12).Draw(t, "pipes"))
		net := &s.Network
		for i := range rapid.IntRange(0, 5).Draw(t, "extra") {
			a, b := r.IntN(len(net.Nodes)), r.IntN(len(net.Nodes))
			l := unit.Feet(float64(r.IntN(50)))
			net.Pipes = append(net.Pipes, network.Pipe{
				ID: network.PipeID(fmt.Sprintf("x%d", i)), From: net.Nodes[a].ID, To: net.Nodes[b].ID,
				Size: 4, Material: network.PVC40, Length: &l, Deposit: network.Grease,
			})
		}
		if r.IntN(3) == 0 {
			net.Nodes[0].Kind = network.KindCap // no outlet
		}
		kinds := []network.NodeKind{network.KindTrap, network.KindReducer, network.KindBackwater, network.KindFixture}
		net.Nodes[r.IntN(len(net.Nodes))].Kind = kinds[r.IntN(len(kinds))]
		p, err := route.Solve(context.Background(), s, tab, route.Options{})
		require.NoError(t, err)
		count := map[network.PipeID]int{}
		for _, run := range p.Runs() {
			for _, leg := range run.Path {
				if leg.Cleaned {
					count[leg.Pipe]++
				}
			}
		}
		for _, short := range p.Shortfalls {
			count[short.Pipe]++
			require.NotEmpty(t, short.Why(unit.US))
			require.NotEmpty(t, short.Cure.Say(unit.Metric))
		}
		for _, pipe := range net.Pipes {
			want := 1
			if pipe.OutOfJob {
				want = 0
			}
			require.Equal(t, want, count[pipe.ID], "pipe %s", pipe.ID)
		}
		require.LessOrEqual(t, p.Bound, p.Cost)
		audit.Require(t, s, tab, p)
	})
}
