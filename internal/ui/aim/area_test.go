package aim

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// lots is the yard with a large area, a small one inside it, and one beside.
func lots() *site.Site {
	s := yard()
	box := func(x0, y0, x1, y1 float64) []network.Point {
		return []network.Point{pt(x0, y0), pt(x1, y0), pt(x1, y1), pt(x0, y1)}
	}
	s.Areas = []site.Area{
		{ID: "lot", Kind: site.Stand, Outline: box(-10, -20, 30, 30)},
		{ID: "path", Kind: site.Walkway, Outline: box(12, 10, 18, 14)},
		{ID: "lane", Kind: site.KeepClear, Outline: box(40, 0, 50, 10)},
	}
	return s
}

func TestAreasAreFound(t *testing.T) {
	x := index(lots())
	for _, c := range []struct {
		name string
		at   network.Point
		want string // "" for nothing
		hit  Hit
	}{
		{"an edge", pt(45, 0.2), "area lane", Hit{At: pt(45, 0), Corner: -1}},
		{"the edge that closes it", pt(40.1, 5), "area lane", Hit{At: pt(40, 5), Leg: 3, Corner: -1}},
		{"the first corner", pt(40.1, 0.1), "area lane", Hit{At: pt(40.1, 0), Corner: 0}},
		{"the last corner", pt(40, 10.1), "area lane", Hit{At: pt(40, 10), Leg: 2, Corner: 3}},
		{"inside", pt(45, 5), "area lane", Hit{At: pt(45, 5), Corner: -1, Inside: true}},
		{"the smaller of two", pt(15, 12), "area path", Hit{At: pt(15, 12), Corner: -1, Inside: true}},
		{"the edge of the small one", pt(15, 10.3), "area path", Hit{At: pt(15, 10), Corner: -1}},
		{"what stands inside comes first", pt(0, -5), "spot s1", Hit{At: pt(0, -5), Corner: -1}},
		{"a pipe inside comes first", pt(4, 0.3), "pipe main", Hit{At: pt(4, 0), Along: 4, Corner: -1}},
		{"beside all", pt(60, 5), "", Hit{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, ok := x.At(c.at, "Ground", 0.5, nil)
			if c.want == "" {
				assert.False(t, ok, "%v", h)
				return
			}
			assert.Equal(t, c.want, fmt.Sprintf("%s %s", h.Ref.Kind, h.Ref.ID))
			assert.InDelta(t, 0, c.hit.At.Distance(h.At).Metres(), 1e-9)
			assert.Equal(t, c.hit.Along, h.Along)
			assert.Equal(t, []int{c.hit.Leg, c.hit.Corner}, []int{h.Leg, h.Corner})
			assert.Equal(t, c.hit.Inside, h.Inside)
		})
	}
	_, ok := x.At(pt(45, 5), "Ground", 0.5, func(r edit.Ref) bool { return r.Kind == edit.Pipe })
	assert.False(t, ok, "a filter holds for areas too")
	h, ok := x.At(pt(15, 12), "First", 0.5, func(r edit.Ref) bool { return r.ID != "path" })
	assert.True(t, ok && h.Ref == edit.AreaRef("lot"), "the ground belongs to every level")
}

func TestAreasLieUnderAllElse(t *testing.T) {
	under := func(p network.Point) (all []string) {
		for _, h := range index(lots()).Under(p, "Ground", unit.Metres(0.5)) {
			all = append(all, h.Ref.ID)
		}
		return all
	}
	assert.Equal(t, []string{"s1", "s1>co", "s1<w1", "lot"}, under(pt(0, -5)))
	assert.Equal(t, []string{"path", "lot"}, under(pt(15, 12)))
	assert.Equal(t, []string{"path", "lot"}, under(pt(15, 10.3)), "each once")
}

func TestAreasInAFrame(t *testing.T) {
	x := index(lots())
	assert.Equal(t, []edit.Ref{edit.AreaRef("lane")}, x.In(pt(39, -1), pt(51, 11), "Ground", false))
	assert.Empty(t, x.In(pt(39, -1), pt(51, 9), "Ground", false))
	assert.Equal(t, []edit.Ref{edit.AreaRef("lane")}, x.In(pt(45, -1), pt(46, 1), "Ground", true))
	assert.Empty(t, x.In(pt(44, 4), pt(46, 6), "Ground", true), "a frame within an area leaves it alone")
}
