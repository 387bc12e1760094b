package form

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
)

func TestAreaCard(t *testing.T) {
	b := newBench(t, "restaurant")
	s := b.Site()
	s.Areas = nil
	at := s.Spots[0].At
	for _, kind := range []site.AreaKind{site.Stand, site.Stand} {
		e, err := edit.PlaceArea(s, kind, []network.Point{
			{X: at.X - 3.048, Y: at.Y - 3.048}, {X: at.X + 3.048, Y: at.Y - 3.048}, {X: at.X + 3.048, Y: at.Y + 3.048}, {X: at.X - 3.048, Y: at.Y + 3.048},
		})
		require.NoError(t, err)
		b.Do(e)
	}
	first := edit.AreaRef(s.Areas[0].ID)
	c, w := shown(t, b, false, 1, first)
	assert.Equal(t, "Stand area: Stand 1", c.heading.Text)
	assert.Equal(t, "400 sq ft", cardLines(t, c)["Ground"].in().(*toldInput).Text)
	assert.Equal(t, "80 ft 0 in", cardLines(t, c)["Edge"].in().(*toldInput).Text)
	assert.Equal(t, s.Spots[0].Name(), cardLines(t, c)["Spots"].in().(*toldInput).Text)

	fill(t, w, entryOf(t, cardLines(t, c)["Label"]), "Fire lane")
	listOf(t, cardLines(t, c)["Kind"]).SetSelected("Keep-clear area")
	assert.Equal(t, site.KeepClear, s.Areas[0].Kind)
	assert.Equal(t, "Keep-clear area: Fire lane", c.heading.Text)
	assert.Equal(t, "change kind of Fire lane", b.NextUndo())

	b.Select(edit.Select(first, edit.AreaRef(s.Areas[1].ID)))
	assert.Equal(t, "2 areas", c.heading.Text)
	assert.Equal(t, "800 sq ft", cardLines(t, c)["Ground"].in().(*toldInput).Text)
	listOf(t, cardLines(t, c)["Kind"]).SetSelected("Walkway")
	assert.Equal(t, site.Walkway, s.Areas[1].Kind)

	b.Select(edit.Selection{})
	assert.Equal(t, "2 walkways", cardLines(t, c)["Areas"].in().(*toldInput).Text)
}
