package chart

import (
	"fmt"
	"image"
	"image/draw"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/export/drawing"
	"linemap/internal/export/raster"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// screen is a frame of 300 by 200 mm that looks at a place.
func screen(at drawing.Point, scale float64) drawing.Frame {
	return drawing.Frame{Ground: at, Paper: drawing.Point{X: 150, Y: 100}, Scale: scale}
}

const screenW, screenH = 300, 200

func board(t require.TestingT, s *site.Site, p *route.Plan, opt BoardOptions) *Board {
	g, _ := network.Trace(&s.Network)
	b, err := NewBoard(s, g, p, opt)
	require.NoError(t, err)
	return b
}

// everything shows all that a board can show.
func everything(level string) BoardOptions {
	return BoardOptions{Level: level, Ghost: true, ShowPlan: true, ShowLays: true}
}

// written lists the texts of a list with their places on the ground.
func written(l drawing.List, scale float64) map[string][]drawing.Point {
	all := map[string][]drawing.Point{}
	for _, it := range l.Items {
		if text, ok := it.Shape.(drawing.Text); ok {
			at := text.At.Add(drawing.Point{X: text.Off.X / scale, Y: -text.Off.Y / scale})
			all[text.S] = append(all[text.S], at)
		}
	}
	return all
}

// extentOfSite is where the nodes of a level lie.
func extentOfSite(s *site.Site, level string) extent {
	e := nowhere()
	for i := range s.Network.Nodes {
		if n := &s.Network.Nodes[i]; n.Level == level {
			e.add(point(n.At))
		}
	}
	return e
}

// At the scale of a building each opening of a demo has its name, and each run
// that has room its number.
func TestBoardNamesWhatTheCrewLooksFor(t *testing.T) {
	tables, err := site.LoadTables()
	require.NoError(t, err)
	for _, demo := range []string{"restaurant", "flats", "school"} {
		s, err := site.Demo(demo)
		require.NoError(t, err)
		p, err := route.Solve(t.Context(), s, tables, route.Options{})
		require.NoError(t, err)
		named, openings := 0, 0
		for _, l := range s.Network.Levels {
			b := board(t, s, p, BoardOptions{Level: l.Name, ShowPlan: true, Units: s.Units})
			e := extentOfSite(s, l.Name)
			w, h := e.size()
			const scale = 12 // about 1:80
			pn := b.Panel(drawing.Frame{Ground: e.min, Paper: drawing.Point{X: 30, Y: h*scale + 30}, Scale: scale}, w*scale+60, h*scale+60)
			said := written(pn.List, scale)
			for i := range s.Network.Nodes {
				n := &s.Network.Nodes[i]
				if n.Level != l.Name || !opens(n) {
					continue
				}
				openings++
				if len(said[b.accessName(n)]) > 0 {
					named++
				} else {
					t.Logf("%s: %s has no room for its name", demo, b.accessName(n))
				}
			}
		}
		assert.GreaterOrEqual(t, float64(named), 0.95*float64(openings), "%s: %d of %d openings named", demo, named, openings)
	}
}

// Whatever part of the ground one looks at, and however one came there, what is
// seen of a label stands in the same place.
func TestLabelsStayWhileOnePans(t *testing.T) {
	s, p := campus(2000)
	one, other := board(t, s, p, everything("")), board(t, s, p, everything(""))
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.SampledFrom([]float64{0.9, 1.7, 2.6, 4, 9, 30}).Draw(t, "scale")
		at := drawing.Point{X: rapid.Float64Range(0, 600).Draw(t, "x"), Y: rapid.Float64Range(0, 200).Draw(t, "y")}
		by := drawing.Point{X: rapid.Float64Range(-1, 1).Draw(t, "dx") * screenW / scale, Y: rapid.Float64Range(-1, 1).Draw(t, "dy") * screenH / scale}
		a, c := screen(at, scale), screen(at.Add(by), scale)
		first := written(one.Panel(a, screenW, screenH).List, scale)
		second := written(other.Panel(c, screenW, screenH).List, scale)
		inBoth := func(q drawing.Point) bool {
			for _, f := range []drawing.Frame{a, c} {
				if m := f.To(q); m.X < 0 || m.Y < 0 || m.X > screenW || m.Y > screenH {
					return false
				}
			}
			return true
		}
		count := func(said map[string][]drawing.Point, s string, at drawing.Point) int {
			n := 0
			for _, q := range said[s] {
				if d := q.Sub(at).Scale(scale); math.Hypot(d.X, d.Y) < 0.01 {
					n++
				}
			}
			return n
		}
		for _, pair := range [][2]map[string][]drawing.Point{{first, second}, {second, first}} {
			for text, places := range pair[0] {
				for _, q := range places {
					if inBoth(q) {
						assert.Positive(t, count(pair[1], text, q), "%q at %v, 1 m being %g mm", text, q, scale)
					}
				}
			}
		}
	})
}

// Close up, a board of ten thousand pipes is as small as what is seen; from afar
// it has no labels.
func TestBoardDrawsWhatIsSeen(t *testing.T) {
	s, p := campus(10_000)
	b := board(t, s, p, everything(""))
	near := b.Panel(screen(drawing.Point{X: 300, Y: 350}, 40), screenW, screenH)
	assert.Less(t, len(near.Items), 400)
	assert.NotEmpty(t, written(near.List, 40))
	far := b.Panel(screen(drawing.Point{X: 300, Y: 350}, 0.3), screenW, screenH)
	assert.Greater(t, len(far.Items), 9000)
	assert.Empty(t, written(far.List, 0.3))
	assert.Empty(t, b.Panel(screen(drawing.Point{X: -9000, Y: 350}, 40), screenW, screenH).Items, "nothing is there")
	again := b.Panel(screen(drawing.Point{X: 300, Y: 350}, 40), screenW, screenH)
	assert.Equal(t, near.Items, again.Items)
}

// A long pipe has its name and a run its number wherever along it one looks.
func TestLabelsAlongALongPipe(t *testing.T) {
	s := &site.Site{}
	end := func(id string, x float64, kind network.NodeKind) {
		s.Network.Nodes = append(s.Network.Nodes, network.Node{ID: network.NodeID(id), Kind: kind, At: network.Point{X: unit.Metres(x)}})
	}
	end("OUT", 0, network.KindOutlet)
	end("END", 2000, network.KindCap)
	s.Network.Pipes = []network.Pipe{{ID: "P", From: "END", To: "OUT", Size: 8, Material: network.Clay}}
	p := &route.Plan{Blocks: []route.Block{{Runs: []route.Run{{Number: 1, Direction: route.Downstream, Path: []route.Leg{{Pipe: "P", Cleaned: true}}}}}}}
	b := board(t, s, p, everything(""))
	for _, scale := range []float64{0.9, 3, 30, 300} {
		for _, x := range []float64{100, 777, 1000, 1900} {
			f := screen(drawing.Point{X: x}, scale)
			said := written(b.Panel(f, screenW, screenH).List, scale)
			for _, text := range []string{"8 in VCP", "1"} {
				seen := 0
				for _, q := range said[text] {
					if m := f.To(q); m.X >= 0 && m.X <= screenW {
						seen++
					}
				}
				assert.Positive(t, seen, "%s at %g m, 1 m being %g mm", text, x, scale)
				assert.Less(t, seen, 15, "%s at %g m, 1 m being %g mm", text, x, scale)
			}
		}
	}
}

func TestBoardShowsOneLevel(t *testing.T) {
	s := shop()
	b := board(t, s, nil, everything("Ground floor"))
	e := extentOfSite(s, "Ground floor")
	said := written(b.Panel(screen(e.middle(), 8), screenW, screenH).List, 8)
	assert.Contains(t, said, "CO-1")
	assert.NotContains(t, said, "WC-1", "a fixture of the floor above")
	assert.Contains(t, said, "Stack 1  3 in PVC")

	count := func(opt BoardOptions) (pale int) {
		for _, it := range board(t, s, nil, opt).Panel(screen(e.middle(), 8), screenW, screenH).Items {
			if line, ok := it.Shape.(drawing.Path); ok && line.Pen.Ink == drawing.Pale {
				pale++
			}
		}
		return pale
	}
	assert.Equal(t, 2, count(BoardOptions{Level: "Ground floor", Ghost: true}), "the laterals above, faintly")
	assert.Zero(t, count(BoardOptions{Level: "Ground floor"}))
}

// A board of a sketch newer than its plan shows what still fits.
func TestBoardOfAnOlderPlan(t *testing.T) {
	s, p := campus(300)
	rapid.Check(t, func(t *rapid.T) {
		now := s.Clone()
		net := &now.Network
		for range rapid.IntRange(1, 40).Draw(t, "edits") {
			i := rapid.IntRange(0, len(net.Pipes)-1).Draw(t, "pipe")
			k := rapid.IntRange(0, len(net.Nodes)-1).Draw(t, "node")
			switch rapid.IntRange(0, 4).Draw(t, "edit") {
			case 0:
				net.Pipes[i].ID = network.PipeID(fmt.Sprint("new", i, k))
			case 1:
				net.Pipes[i].From, net.Pipes[i].To = net.Pipes[i].To, net.Pipes[i].From
			case 2:
				net.Nodes[k].ID = network.NodeID(fmt.Sprint("new", k))
			case 3:
				net.Nodes[k].At.X += unit.Metres(100)
			case 4:
				net.Nodes[k].Access, net.Nodes[k].Kind = nil, network.KindBend
			}
		}
		now.Spots = now.Spots[:rapid.IntRange(0, len(now.Spots)).Draw(t, "spots")]
		b := board(t, now, p, everything(""))
		e := extentOfSite(now, "")
		pn := b.Panel(screen(e.middle(), 1.5), screenW, screenH)
		for _, it := range pn.Items { // a ribbon lies on pipes: none jumps to where a pipe was
			line, ok := it.Shape.(drawing.Path)
			if !ok || it.Layer != drawing.Runs {
				continue
			}
			for i := 1; i < len(line.Points); i++ {
				assert.True(t, b.piped(line.Points[i-1], line.Points[i]), "a ribbon beside the pipes")
			}
		}
	})
}

// piped reports whether a pipe runs from a to b.
func (b *Board) piped(a, c drawing.Point) bool {
	for p := range b.boxes {
		if line := b.trace(p); joined(b.graph, p) {
			for i := 1; i < len(line); i++ {
				if line[i-1] == a && line[i] == c || line[i-1] == c && line[i] == a {
					return true
				}
			}
		}
	}
	return false
}

func TestBoardShowsPicturesAndNotes(t *testing.T) {
	s := shop()
	s.Notes = []site.Note{
		{ID: "n1", At: network.Point{X: unit.Feet(20)}, Level: "Ground floor", Text: "Key at the bar"},
		{ID: "n2", At: network.Point{X: unit.Feet(20)}, Level: "Second floor", Text: "Loose tile"},
	}
	s.Underlays = []site.Underlay{
		{ID: "u1", Level: "Ground floor", At: network.Point{X: unit.Metres(5)}, Scale: unit.Metres(0.01), Turn: unit.Degrees(90), Dim: 0.25, File: "a.png"},
		{ID: "u2", Label: "Old plan", Level: "Ground floor", At: network.Point{X: unit.Metres(5)}, Scale: unit.Metres(0.01), File: "b.png"},
		{ID: "u3", Level: "Ground floor", Hidden: true, Scale: unit.Metres(0.01), File: "c.png"},
		{ID: "u4", Level: "Second floor", Scale: unit.Metres(0.01), File: "d.png"},
	}
	opt := everything("Ground floor")
	opt.Pictures = func(u *site.Underlay) (image.Image, unit.Length) {
		if u.ID != "u1" {
			return nil, 0
		}
		return image.NewGray(image.Rect(0, 0, 300, 100)), 2 * u.Scale // one dot for two
	}
	pn := board(t, s, nil, opt).Panel(screen(drawing.Point{X: 5}, 8), screenW, screenH)
	var pictures []drawing.Picture
	for _, it := range pn.Items {
		if pic, ok := it.Shape.(drawing.Picture); ok {
			pictures = append(pictures, pic)
		}
	}
	require.Len(t, pictures, 1)
	pic := pictures[0]
	assert.InDelta(t, 6, pic.W, 1e-9)
	assert.InDelta(t, 2, pic.H, 1e-9)
	assert.InDelta(t, math.Pi/2, pic.Turn, 1e-9)
	assert.InDelta(t, 0.25, pic.Dim, 0)
	assert.Equal(t, drawing.Point{X: 5}, pic.At)
	said := written(pn.List, 8)
	assert.Contains(t, said, "Old plan")
	assert.Contains(t, said, "picture missing")
	assert.Contains(t, said, "Key at the bar")
	assert.NotContains(t, said, "Loose tile")

	c, err := Draw(s, nil, papers[0])
	require.NoError(t, err)
	all := strings.Join(texts(c), "\n")
	assert.Contains(t, all, "Key at the bar", "on paper too")
	assert.Contains(t, all, "Loose tile")
}

// A board is drawn and painted from anywhere, whatever a site is like.
func TestBoardFromAnywhere(t *testing.T) {
	small, smallPlan := campus(200)
	odd := []float64{0, 1, -1, 1e-9, 1e7, -1e12, math.Inf(1), math.NaN(), math.MaxFloat64}
	img := image.NewRGBA(image.Rect(0, 0, 120, 90))
	rapid.Check(t, func(t *rapid.T) {
		s, p := small, smallPlan
		if rapid.Bool().Draw(t, "wild") {
			s, p = wild(t)
		}
		g, _ := network.Trace(&s.Network)
		level := ""
		if n := len(s.Network.Nodes); n > 0 {
			level = s.Network.Nodes[rapid.IntRange(0, n-1).Draw(t, "node")].Level
		}
		b, err := NewBoard(s, g, p, everything(level))
		if err != nil {
			return
		}
		num := func(name string) float64 {
			if rapid.IntRange(0, 9).Draw(t, "odd") == 0 {
				return rapid.SampledFrom(odd).Draw(t, name)
			}
			return rapid.Float64Range(-300, 900).Draw(t, name)
		}
		for range 3 {
			f := drawing.Frame{
				Ground: drawing.Point{X: num("x"), Y: num("y")}, Paper: drawing.Point{X: num("right"), Y: num("down")},
				Scale: math.Exp(rapid.Float64Range(-12, 12).Draw(t, "scale")),
			}
			if rapid.IntRange(0, 9).Draw(t, "odd scale") == 0 {
				f.Scale = num("scale")
			}
			draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
			pt := raster.New(img, 4.2)
			pt.Inks = raster.Night
			drawing.Paint(&drawing.Sheet{Panels: []drawing.Panel{b.Panel(f, num("w"), num("h"))}}, pt)
			pt.Flush()
		}
	})
}
