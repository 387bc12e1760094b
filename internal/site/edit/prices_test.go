package edit_test

import (
	"testing"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
	"linemap/internal/site/edit"
)

func TestSetPrices(t *testing.T) {
	s, err := site.Demo("restaurant")
	require.NoError(t, err)
	first := s.Prices.Clone()
	dearer := first.Clone()
	dearer.Rates[0].Amount = decimal.MustParse("9.50")

	e, err := edit.SetPrices(s, dearer)
	require.NoError(t, err)
	assert.Equal(t, first, s.Prices, "nothing happens before it is done")
	e.Do(s)
	assert.Equal(t, dearer, s.Prices)
	dearer.Rates[0].UpTo = 24
	assert.EqualValues(t, 2, s.Prices.Rates[0].UpTo, "the site has its own copy")
	e.Undo(s)
	assert.Equal(t, first, s.Prices)

	e, err = edit.SetPrices(s, site.Prices{})
	require.NoError(t, err)
	e.Do(s)
	assert.False(t, s.Prices.Given())
	e.Undo(s)
	assert.Equal(t, first, s.Prices)

	first.Minimum = decimal.MustParse("-1")
	_, err = edit.SetPrices(s, first)
	assert.ErrorContains(t, err, `prices: minimum: found "-1"`)
}
