package edit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestSplitPipe(t *testing.T) {
	for _, drawn := range []string{"OUT(at=0m,0m) -12m/4in/id=m- F1(at=12m,0m)", "F1(at=12m,0m) -12m/4in/id=m- OUT(at=0m,0m)"} {
		b := newBoard(t, drawn)
		b.Site().ByHand = site.ByHand{
			Keep: []site.RunKey{{Spot: "s", Hose: "h", Access: "co", End: "m"}},
			Bar:  []site.RunKey{{Spot: "s", Hose: "h", Access: "co", End: "m", Downstream: true}},
		}
		made := b.do(edit.SplitPipe(b.Site(), "m", pt(3, 1)))
		n := b.node(network.NodeID(made.ID))
		assert.Equal(t, pt(3, 0), n.At)
		upper := b.otherAt(n.ID, "m")
		g, _ := network.Trace(&b.Site().Network)
		i, _ := g.PipeIndex("m")
		k, _ := g.PipeIndex(upper)
		assert.Equal(t, i, g.Next[k], "the downstream half keeps the ID")
		assert.Equal(t, upper, b.Site().ByHand.Keep[0].End, "a run up the pipe goes to its upper end as before")
		assert.Equal(t, network.PipeID("m"), b.Site().ByHand.Bar[0].End, "a run down it to its lower end")
		assert.Equal(t, "straight", b.passage("m", upper).What)
		assert.Empty(t, b.faults())
	}
}

func TestHalvePipe(t *testing.T) {
	b := newBoard(t, "OUT(at=0m,0m) -12m/4in/id=m- F1(at=12m,0m)")
	b.do(edit.AddCorner(b.Site(), "m", 0, pt(12, 4)))
	made := b.do(edit.HalvePipe(b.Site(), "m")) // 4 m and 12.649 m
	at := b.node(network.NodeID(made.ID)).At
	half := (4 + math.Hypot(12, 4)) / 2
	assert.InDelta(t, half, at.Distance(pt(0, 0)).Metres(), 0.001)
	b.refuses(`no pipe "q"`, func() (*edit.Edit, error) { return edit.HalvePipe(b.Site(), "q") })
	up := newBoard(t, "OUT(at=0m,0m) -5m- B1(at=5m,0m) -5m/stack/id=s- VT1(at=5m,0m)")
	up.refuses("pipe s is upright", func() (*edit.Edit, error) { return edit.HalvePipe(up.Site(), "s") })
}

func TestSplitRefuses(t *testing.T) {
	b := newBoard(t, mainLine)
	split := func(id network.PipeID, at network.Point) func() (*edit.Edit, error) {
		return func() (*edit.Edit, error) { return edit.SplitPipe(b.Site(), id, at) }
	}
	b.refuses(`no pipe "q"`, split("q", pt(1, 1)))
	b.refuses("pipe m ends there, at fixture F1", split("m", pt(12, 0)))
	b.refuses("ends there", split("m", pt(-9, 0)))
	up := newBoard(t, "OUT(at=0m,0m) -5m- B1(at=5m,0m) -5m/stack/id=s- VT1(at=5m,0m)")
	up.refuses("pipe s is upright", func() (*edit.Edit, error) { return edit.SplitPipe(up.Site(), "s", pt(5, 0)) })
	b.refuses("no numbers", split("m", pt(unit.Length(math.NaN()), 0)))
}

func TestCorners(t *testing.T) {
	b := newBoard(t, mainLine)
	b.do(edit.AddCorner(b.Site(), "m", 0, pt(3, 3)))
	b.do(edit.AddCorner(b.Site(), "m", 1, pt(9, 3)))
	assert.Equal(t, []network.Point{pt(3, 3), pt(9, 3)}, b.pipe("m").Via)
	b.do(edit.MoveCorner(b.Site(), "m", 1, pt(8, 4)))
	assert.Equal(t, []network.Point{pt(3, 3), pt(8, 4)}, b.pipe("m").Via)
	b.do(edit.RemoveCorner(b.Site(), "m", 0))
	b.do(edit.RemoveCorner(b.Site(), "m", 0))
	assert.Nil(t, b.pipe("m").Via)
	for _, make := range []func() (*edit.Edit, error){
		func() (*edit.Edit, error) { return edit.AddCorner(b.Site(), "m", 1, pt(1, 1)) },
		func() (*edit.Edit, error) { return edit.AddCorner(b.Site(), "m", -1, pt(1, 1)) },
		func() (*edit.Edit, error) { return edit.MoveCorner(b.Site(), "m", 0, pt(1, 1)) },
		func() (*edit.Edit, error) { return edit.RemoveCorner(b.Site(), "m", 0) },
	} {
		b.refuses("pipe m has 0 corners", make)
	}
	b.refuses(`no pipe "q"`, func() (*edit.Edit, error) { return edit.AddCorner(b.Site(), "q", 0, pt(1, 1)) })
	b.refuses("a site reaches", func() (*edit.Edit, error) { return edit.AddCorner(b.Site(), "m", 0, pt(1e6, 1)) })
}

// A corner moved next to a junction may ask for another fitting.
func TestFittingFollowsACorner(t *testing.T) {
	b := newBoard(t, mainLine)
	branch := network.PipeID(b.do(edit.DrawPipe(b.Site(), onPipe("m", 6, 0), []network.Point{pt(8, 2)}, free(8, 9), plastic(3))).ID)
	assert.Equal(t, network.Wye, b.nodeAt(6, 0).Junction.Kind)
	b.do(edit.MoveCorner(b.Site(), branch, 0, pt(6, 2)))
	assert.Equal(t, network.Combination, b.nodeAt(6, 0).Junction.Kind)
}
