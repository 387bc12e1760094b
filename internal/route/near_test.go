package route

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// A site may have any number of spots, but not near one access.
func TestManySpots(t *testing.T) {
	tab := sample.Tables()
	spotsEvery := func(feet float64) *site.Site {
		s := sample.Sketch("OUT -10ft/4in/out- CO1(up) -80ft- CO2(up) -60ft- CAP1", [2]float64{10, 5})
		for i := range 200 {
			s.Spots = append(s.Spots, site.Spot{
				ID: site.SpotID(fmt.Sprint("s", i)), Label: fmt.Sprint("Spot ", i),
				At: network.Point{X: unit.Feet(feet * float64(i))},
			})
		}
		return s
	}
	p, err := Solve(context.Background(), spotsEvery(100), tab, Options{})
	require.NoError(t, err)
	require.Empty(t, p.Shortfalls)
	_, err = Solve(context.Background(), spotsEvery(1), tab, Options{})
	require.ErrorContains(t, err, "more than 63 usable spots are within reach of the hoses")
}

// The spots found near an access are those that a look at all of them finds.
func TestNearSpots(t *testing.T) {
	tab := sample.Tables()
	rapid.Check(t, func(t *rapid.T) {
		s := sample.Large(rapid.Uint64().Draw(t, "seed"), 12, rapid.IntRange(1, 12).Draw(t, "spots"))
		for range rapid.IntRange(0, 4).Draw(t, "lays") {
			long := unit.Feet(rapid.Float64Range(1, 500).Draw(t, "long"))
			s.Lays = append(s.Lays, site.Lay{
				Spot:   rapid.SampledFrom(s.Spots).Draw(t, "spot").ID,
				Access: rapid.SampledFrom(s.Network.Nodes).Draw(t, "access").ID, Length: &long,
			})
		}
		m, err := newModel(s, tab)
		require.NoError(t, err)
		for a := range m.access {
			least := m.layTo(a, 0)
			for spot := range m.spots {
				lay := s.LayLength(m.spots[spot].spot, m.openingOf(&m.access[a]))
				least = min(least, lay)
				require.Equal(t, lay, m.layTo(a, spot))
				if lay <= m.ground.reach {
					require.NotZero(t, m.bit(a, spot))
				}
			}
			require.Equal(t, least, m.layTo(a, m.nearestSpot(a)))
		}
	})
}

// nearestSpot is the nearest of the spots near an access.
func (m *model) nearestSpot(access int) int {
	best := m.access[access].near[0]
	for _, n := range m.access[access].near {
		if n.lay < best.lay {
			best = n
		}
	}
	return best.spot
}
