package audit_test

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/route/audit"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// decide draws decisions by hand for a site: about runs of its own plan, and
// about runs of which most cannot be made.
func decide(t *rapid.T, s *site.Site, p *route.Plan) site.ByHand {
	own := p.Keys()
	key := func() site.RunKey {
		if len(own) > 0 && rapid.IntRange(0, 2).Draw(t, "own") > 0 {
			return rapid.SampledFrom(own).Draw(t, "run")
		}
		k := site.RunKey{Spot: "gone", Downstream: rapid.Bool().Draw(t, "down")}
		if len(s.Spots) > 0 {
			k.Spot = rapid.SampledFrom(s.Spots).Draw(t, "spot").ID
		}
		k.Hose = rapid.SampledFrom(s.Rig.Hoses).Draw(t, "hose").ID
		pipe := rapid.SampledFrom(s.Network.Pipes).Draw(t, "end")
		k.End = pipe.ID
		k.Access = rapid.SampledFrom([]network.NodeID{pipe.From, pipe.To, s.Network.Nodes[0].ID}).Draw(t, "access")
		if n := rapid.SampledFrom(s.Network.Nodes).Draw(t, "other access"); n.Access != nil {
			k.Access = n.ID
		}
		return k
	}
	keys := func(most int) (out []site.RunKey) {
		for range rapid.IntRange(0, most).Draw(t, "runs") {
			out = append(out, key())
		}
		return out
	}
	h := site.ByHand{Keep: keys(2), Bar: keys(4)}
	if rapid.IntRange(0, 2).Draw(t, "ordered") == 0 {
		h.Order = rapid.Permutation(own).Draw(t, "order")
		h.Order = append(h.Order[:rapid.IntRange(0, len(h.Order)).Draw(t, "cut")], keys(3)...)
	}
	return h
}

// solveByHand plans a random site under random decisions by hand.
func solveByHand(t *rapid.T, s *site.Site) *route.Plan {
	own, err := route.Solve(context.Background(), s, sample.Tables(), route.Options{})
	require.NoError(t, err)
	s.ByHand = decide(t, s, own)
	p, err := route.Solve(context.Background(), s, sample.Tables(), route.Options{})
	require.NoError(t, err)
	return p
}

// Whatever is decided by hand, the plan heeds it or says why not, and every
// sentence that it says is whole.
func TestPlansByHandKeepTheRules(t *testing.T) {
	base := usRig(t)
	seen := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := randomSite(t, base, 12)
		p := solveByHand(t, s)
		audit.Require(t, s, sample.Tables(), p)
		if p.ByHand == nil {
			return
		}
		for _, b := range p.ByHand.Broken {
			seen[string(b.What)]++
			assert.NotContains(t, b.Say(s), string(b.What))
		}
		for _, f := range p.Shortfalls {
			seen[string(f.Reason)]++
			assert.NotContains(t, f.Why(unit.US), "_")
			assert.NotContains(t, f.Cure.Say(unit.US), "_by_hand")
		}
		for _, line := range p.ByHand.Say(s) {
			assert.Regexp(t, `^[A-Z].*\.$`, line)
		}
	})
	t.Log(seen)
}

func TestOneSpoiledFieldOfAPlanByHandIsCaught(t *testing.T) {
	tables, base := sample.Tables(), usRig(t)
	rapid.Check(t, func(t *rapid.T) {
		s := randomSite(t, base, 8)
		p := solveByHand(t, s)
		before := audit.Check(s, tables, p)
		var all []field
		for _, f := range fields(p) {
			if p.ByHand == nil || len(f.path) > 7 && f.path[:7] == ".ByHand" || len(f.path) > 11 && f.path[:11] == ".Shortfalls" {
				all = append(all, f)
			}
		}
		f := all[rapid.IntRange(0, len(all)-1).Draw(t, "field")]
		if free.MatchString(f.path) || lacking.MatchString(f.path) {
			return
		}
		f.spoil()
		if slices.Equal(before, audit.Check(s, tables, p)) {
			t.Fatalf("%s may be anything", f.path)
		}
	})
}
