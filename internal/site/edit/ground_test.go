package edit_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func TestPlaceOnGround(t *testing.T) {
	b := newBoard(t, "")
	b.do(edit.PlaceSpot(b.Site(), pt(1, 2)))
	made := b.do(edit.PlaceSpot(b.Site(), pt(3, 4)))
	assert.Equal(t, site.Spot{ID: site.SpotID(made.ID), Label: "Spot 2", At: pt(3, 4), Traffic: site.NoTraffic}, b.Site().Spots[1])
	for _, kind := range []site.WaterKind{site.HoseBib, site.HoseBib, site.Hydrant, site.Tanker} {
		b.do(edit.PlaceWater(b.Site(), pt(5, 6), kind))
	}
	var labels []string
	for _, w := range b.Site().Water {
		labels = append(labels, w.Label)
		assert.Positive(t, w.Flow)
	}
	assert.Equal(t, []string{"HB-1", "HB-2", "HYD-1", "TKR-1"}, labels)
	assert.Equal(t, "place tanker", b.NextUndo())
	b.do(edit.AddLevel(b.Site(), "Yard", 0))
	made = b.do(edit.PlaceNote(b.Site(), pt(7, 8), "Yard", "Dog"))
	assert.Equal(t, site.Note{ID: site.NoteID(made.ID), At: pt(7, 8), Level: "Yard", Text: "Dog"}, b.Site().Notes[0])
	made = b.do(edit.PlaceUnderlay(b.Site(), site.Underlay{Level: "Yard", At: pt(5, 5), Scale: 0.02, File: "yard.png"}))
	assert.Equal(t, site.Underlay{ID: site.UnderlayID(made.ID), Level: "Yard", At: pt(5, 5), Scale: 0.02, File: "yard.png"}, b.Site().Underlays[0])

	nan := unit.Length(math.NaN())
	b.refuses("no numbers", func() (*edit.Edit, error) { return edit.PlaceSpot(b.Site(), pt(nan, 0)) })
	b.refuses("a site reaches", func() (*edit.Edit, error) { return edit.PlaceWater(b.Site(), pt(0, 1e6), site.Hydrant) })
	b.refuses(`found "well"`, func() (*edit.Edit, error) { return edit.PlaceWater(b.Site(), pt(0, 0), "well") })
	b.refuses("says nothing", func() (*edit.Edit, error) { return edit.PlaceNote(b.Site(), pt(0, 0), "", "") })
	b.refuses(`no level "Attic"`, func() (*edit.Edit, error) { return edit.PlaceNote(b.Site(), pt(0, 0), "Attic", "x") })
	b.refuses("at most 10000 characters", func() (*edit.Edit, error) {
		return edit.PlaceNote(b.Site(), pt(0, 0), "", strings.Repeat("x", 10_001))
	})
	b.refuses("the floor plan: scale: found 0", func() (*edit.Edit, error) {
		return edit.PlaceUnderlay(b.Site(), site.Underlay{File: "yard.png"})
	})
	b.refuses(`no level "Attic"`, func() (*edit.Edit, error) {
		return edit.PlaceUnderlay(b.Site(), site.Underlay{Level: "Attic", Scale: 1, File: "yard.png"})
	})
	b.refuses("UTF-8", func() (*edit.Edit, error) { return edit.PlaceNote(b.Site(), pt(0, 0), "", "\xff") })
}

func TestPlaceLay(t *testing.T) {
	b := newBoard(t, "OUT(at=0m,0m) -12m/4in/id=m- CO1(at=12m,0m)")
	spot := site.SpotID(b.do(edit.PlaceSpot(b.Site(), pt(1, 9))).ID)
	water := b.do(edit.PlaceWater(b.Site(), pt(1, 9), site.Hydrant))
	access := edit.NodeRef("CO1")
	via := []network.Point{pt(4, 9), pt(4, 2)}
	made := b.do(edit.PlaceLay(b.Site(), spot, access, via))
	assert.Equal(t, []site.Lay{{Spot: spot, Access: "CO1", Via: via}}, b.Site().Lays)
	assert.Equal(t, edit.LayRef(&b.Site().Lays[0]), made)
	via[0] = pt(0, 0)
	assert.Equal(t, pt(4, 9), b.Site().Lays[0].Via[0], "the edit shares nothing with the caller")

	b.do(edit.PlaceLay(b.Site(), spot, water, []network.Point{pt(2, 2)}))
	b.do(edit.PlaceLay(b.Site(), spot, access, []network.Point{pt(9, 9)}))
	assert.Equal(t, []network.Point{pt(9, 9)}, b.Site().Lays[0].Via, "the older one is replaced")
	assert.Len(t, b.Site().Lays, 2)
	b.do(edit.PlaceLay(b.Site(), spot, access, nil))
	assert.Len(t, b.Site().Lays, 1)
	e, err := edit.PlaceLay(b.Site(), spot, access, nil)
	assert.NoError(t, err)
	assert.True(t, e.Empty(), "it lies straight already")

	lay := func(spot site.SpotID, to edit.Ref, via ...network.Point) func() (*edit.Edit, error) {
		return func() (*edit.Edit, error) { return edit.PlaceLay(b.Site(), spot, to, via) }
	}
	b.refuses(`no spot "q"`, lay("q", access, pt(1, 1)))
	b.refuses(`no node "q"`, lay(spot, edit.NodeRef("q"), pt(1, 1)))
	b.refuses("is an outlet", lay(spot, edit.NodeRef("OUT"), pt(1, 1)))
	b.refuses(`no water point "q"`, lay(spot, edit.WaterRef("q"), pt(1, 1)))
	b.refuses("not to a pipe", lay(spot, edit.PipeRef("m"), pt(1, 1)))
	b.refuses("a site reaches", lay(spot, access, pt(1e9, 1)))
	b.refuses("at most 1000", lay(spot, access, make([]network.Point, 1001)...))
}
