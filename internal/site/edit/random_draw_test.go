package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// sketcher draws at random, as someone does who knows no rule of the trade.
type sketcher struct {
	*rapid.T
	s *site.Site
}

func pick[T any](k sketcher, of ...T) T { return rapid.SampledFrom(of).Draw(k.T, "pick") }

func (k sketcher) point() network.Point {
	// A coarse grid, so that things meet.
	step := rapid.IntRange(-6, 6)
	p := pt(unit.Length(step.Draw(k.T, "x")), unit.Length(step.Draw(k.T, "y")))
	if rapid.IntRange(0, 50).Draw(k.T, "wild") == 0 {
		p.X *= 1e5
	}
	return p
}

func (k sketcher) anchor() edit.Anchor {
	a := edit.Anchor{At: k.point(), Level: pick(k, "Ground", "Ground", "First", "Roof", "")}
	switch net := &k.s.Network; rapid.IntRange(0, 3).Draw(k.T, "anchor") {
	case 1:
		if len(net.Nodes) > 0 {
			a.Node = net.Nodes[rapid.IntRange(0, len(net.Nodes)-1).Draw(k.T, "node")].ID
		}
	case 2, 3:
		a.Pipe = k.pipe()
	}
	return a
}

func (k sketcher) pipe() network.PipeID {
	if n := len(k.s.Network.Pipes); n > 0 {
		return k.s.Network.Pipes[rapid.IntRange(0, n-1).Draw(k.T, "pipe")].ID
	}
	return ""
}

func (k sketcher) style() edit.PipeStyle {
	s := edit.PipeStyle{
		Size: pick[unit.Size](k, 4, 4, 4, 3), Material: pick(k, network.PVC40, network.PVC40, network.Clay),
		Class: pick(k, network.Main, network.Main, network.Stack),
	}
	if rapid.Bool().Draw(k.T, "sloped") {
		slope := unit.Slope(0.02)
		s.Slope = &slope
	}
	return s
}

func (k sketcher) edit() (*edit.Edit, error) {
	points := rapid.Custom(func(t *rapid.T) network.Point { return sketcher{t, k.s}.point() })
	switch rapid.IntRange(0, 12).Draw(k.T, "edit") {
	case 0, 1, 2, 3, 4:
		return edit.DrawPipe(k.s, k.anchor(), rapid.SliceOfN(points, 0, 3).Draw(k.T, "corners"), k.anchor(), k.style())
	case 5:
		return edit.PlaceAccess(k.s, k.anchor(), pick(k, network.OneWayCleanout, network.TwoWayCleanout, network.Manhole,
			network.PulledFixture, network.RoofVent, network.CatchBasin), k.style())
	case 6:
		return edit.PlaceNode(k.s, k.anchor(), pick(k, network.KindFixture, network.KindTrap, network.KindReducer,
			network.KindBackwater, network.KindOutlet, network.KindCap), k.style())
	case 7:
		return edit.PlaceStack(k.s, k.anchor(), pick(k, "Ground", "First", "Roof"), k.style())
	case 8:
		return edit.SplitPipe(k.s, k.pipe(), k.point())
	case 9:
		return edit.AddCorner(k.s, k.pipe(), rapid.IntRange(0, 2).Draw(k.T, "after"), k.point())
	case 10:
		i := rapid.IntRange(0, 2).Draw(k.T, "corner")
		if rapid.Bool().Draw(k.T, "remove") {
			return edit.RemoveCorner(k.s, k.pipe(), i)
		}
		return edit.MoveCorner(k.s, k.pipe(), i, k.point())
	case 11:
		return edit.AddCleanout(k.s, k.pipe(), unit.Length(rapid.Float64Range(0, 12).Draw(k.T, "along")))
	}
	return k.onGround()
}

func (k sketcher) onGround() (*edit.Edit, error) {
	switch rapid.IntRange(0, 3).Draw(k.T, "ground") {
	case 0:
		return edit.PlaceSpot(k.s, k.point())
	case 1:
		return edit.PlaceWater(k.s, k.point(), pick(k, site.Hydrant, site.HoseBib, site.Tanker))
	case 2:
		return edit.PlaceNote(k.s, k.point(), pick(k, "Ground", ""), "Look out")
	}
	spot, to := site.SpotID("s1"), k.anchor()
	return edit.PlaceLay(k.s, spot, edit.NodeRef(to.Node), []network.Point{k.point()}[:rapid.IntRange(0, 1).Draw(k.T, "via")])
}

// Any sequence of 200 edits, undone, gives the first bytes back; redone, the last.
// Whatever was drawn loads, no node joins more pipes than it can, and a junction
// that contradicts the flow is one for which there is no fitting.
func TestDrawingAtRandom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, err := site.New(unit.US)
		require.NoError(t, err)
		s.Network.Levels = []network.Level{{Name: "Ground", Elevation: -1}, {Name: "First", Elevation: 3}, {Name: "Roof", Elevation: 9}}
		k := sketcher{t, s}
		h := edit.NewHistory(s)
		first := bytesOf(t, s)
		done := 0
		for range 200 {
			e, err := k.edit()
			if err != nil {
				assert.Nil(t, e)
				continue
			}
			h.Do(e)
			if !e.Empty() {
				done++
			}
			for _, r := range e.Made() {
				require.True(t, edit.Everything(s).Has(r), "%s made %v", e.Name(), r)
			}
		}
		last := bytesOf(t, s)
		_, err = site.Decode([]byte(last))
		require.NoError(t, err)
		soundJoints(t, s)
		for range done {
			require.NotNil(t, h.Undo())
		}
		require.Nil(t, h.Undo())
		require.Equal(t, first, bytesOf(t, s))
		for range done {
			require.NotNil(t, h.Redo())
		}
		require.Equal(t, last, bytesOf(t, s))
	})
}

func bytesOf(t *rapid.T, s *site.Site) string {
	data, err := site.Encode(s)
	require.NoError(t, err)
	return string(data)
}

func soundJoints(t *rapid.T, s *site.Site) {
	g, findings := network.Trace(&s.Network)
	findings = append(findings, g.Findings(network.Code{}, nil)...)
	for _, f := range findings {
		switch f.Kind {
		case "duplicate_id", "dangling_pipe", "too_many_pipes":
			require.Fail(t, f.Kind, "%s: %s", f.Place, f.What)
		case "junction_branches":
			i, _ := g.NodeIndex(f.Node)
			_, err := g.Suit(i)
			require.Error(t, err, "%s: %s, and a fitting suits", f.Place, f.What)
		}
	}
}
