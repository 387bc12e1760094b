package export

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/picture"
	"linemap/internal/unit"
)

// The floor plan of these tests: white with one square of a colour that nothing
// else on the map has, and where its middle is, in dots.
var (
	planSize   = image.Pt(240, 160)
	planMagic  = color.RGBA{R: 255, B: 255, A: 255}
	planSquare = image.Rect(60, 30, 84, 54)
)

func planImage(size image.Point, square image.Rectangle) []byte {
	m := image.NewRGBA(image.Rectangle{Max: size})
	for y := range size.Y {
		for x := range size.X {
			c := color.RGBA{R: 255, G: 255, B: 255, A: 255}
			if image.Pt(x, y).In(square) {
				c = planMagic
			}
			m.SetRGBA(x, y, c)
		}
	}
	var out bytes.Buffer
	if err := png.Encode(&out, m); err != nil {
		panic(err)
	}
	return out.Bytes()
}

// floorPlan is a floor plan beside the bakery's sewer, turned. In a folder it is
// a file of it.
func floorPlan(t *testing.T, folder string) site.Underlay {
	u := site.Underlay{
		ID: "plan", Label: "Ground floor", At: network.Point{X: unit.Metres(20), Y: unit.Metres(14)},
		Scale: unit.Metres(0.1), Turn: unit.Degrees(25), Dim: 0.2, Data: planImage(planSize, planSquare),
	}
	if folder != "" {
		u.File = "plans/ground.png"
		require.NoError(t, os.MkdirAll(filepath.Join(folder, "plans"), 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(folder, "plans", "ground.png"), u.Data, 0o600))
		u.Data = nil
	}
	return u
}

// magic returns the middle of what has the square's colour, faded by 0.7 as
// every floor plan on paper is at least, in dots, and how much there is of it.
func magic(m image.Image) (x, y float64, n int) {
	b := m.Bounds()
	for py := b.Min.Y; py < b.Max.Y; py++ {
		for px := b.Min.X; px < b.Max.X; px++ {
			r, g, bl, _ := m.At(px, py).RGBA()
			if near := func(v uint32, want int) bool { return math.Abs(float64(int(v>>8)-want)) < 10 }; near(r, 255) && near(g, 178) && near(bl, 255) {
				x, y, n = x+float64(px)+0.5, y+float64(py)+0.5, n+1
			}
		}
	}
	return x / float64(n), y / float64(n), n
}

// rasterised turns the first page of a PDF into a picture.
func rasterised(t *testing.T, pdf []byte, dpi int) image.Image {
	t.Helper()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("pdftoppm is not installed")
	}
	name := filepath.Join(t.TempDir(), "p.pdf")
	require.NoError(t, os.WriteFile(name, pdf, 0o600))
	out, err := exec.Command("pdftoppm", "-png", "-singlefile", "-r", strconv.Itoa(dpi), name).Output()
	require.NoError(t, err)
	m, err := png.Decode(bytes.NewReader(out))
	require.NoError(t, err)
	return m
}

// TestFloorPlanLiesWhereItShould reads the maps back as dots: the square of the
// floor plan lies where the scale of the map puts it.
func TestFloorPlanLiesWhereItShould(t *testing.T) {
	const dpi, perMM = 200, 200 / 25.4
	folder := t.TempDir()
	s := fixtureSite()
	s.Underlays = []site.Underlay{floorPlan(t, folder)}
	opt := Options{Folder: folder}
	c, err := drawMap(s, fixturePlan(), opt.For(s))
	require.NoError(t, err)
	mid := planSquare.Min.Add(planSquare.Max)
	want := picture.Ground(&s.Underlays[0], planSize, float64(mid.X)/2, float64(mid.Y)/2)
	frame := c.Sheets[0].Panels[0].Frame
	at := frame.Paper
	at.X += (want.X.Metres() - frame.Ground.X) * frame.Scale
	at.Y -= (want.Y.Metres() - frame.Ground.Y) * frame.Scale
	side := float64(planSquare.Dx()) * 0.1 * frame.Scale * perMM

	look := func(what string, m image.Image) {
		x, y, n := magic(m)
		require.Positive(t, n, what)
		assert.InDelta(t, at.X*perMM, x, 1.5, what)
		assert.InDelta(t, at.Y*perMM, y, 1.5, what)
		assert.InEpsilon(t, side*side, float64(n), 0.1, what) // its edge is blurred
	}
	pdf, err := Map(s, fixturePlan(), opt)
	require.NoError(t, err)
	again, err := Map(s, fixturePlan(), opt)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(pdf, again), "the same bytes")
	look("PDF", rasterised(t, pdf, dpi))
	sheets, err := MapPNG(s, fixturePlan(), opt)
	require.NoError(t, err)
	m, err := png.Decode(bytes.NewReader(sheets[0]))
	require.NoError(t, err)
	look("PNG", m)
}

// TestFloorPlanStaysInItsPanel lays a plan over the whole page and more.
func TestFloorPlanStaysInItsPanel(t *testing.T) {
	s := fixtureSite()
	u := floorPlan(t, "")
	u.Data, u.Scale = planImage(image.Pt(3000, 3000), image.Rect(0, 0, 3000, 3000)), unit.Metres(0.2)
	s.Underlays = []site.Underlay{u}
	c, err := drawMap(s, fixturePlan(), Options{}.For(s))
	require.NoError(t, err)
	clip := c.Sheets[0].Panels[0].Clip
	sheets, err := MapPNG(s, fixturePlan(), Options{})
	require.NoError(t, err)
	m, err := png.Decode(bytes.NewReader(sheets[0]))
	require.NoError(t, err)
	_, _, all := magic(m)
	inside := image.Rect(int(clip.X*pngPerMM), int(clip.Y*pngPerMM), int(clip.Right()*pngPerMM)+1, int(clip.Bottom()*pngPerMM)+1)
	_, _, within := magic(m.(interface {
		SubImage(image.Rectangle) image.Image
	}).SubImage(inside))
	assert.Equal(t, all, within)
	assert.Greater(t, all, inside.Dx()*inside.Dy()/2)

	// The PDF holds no more dots than it shows.
	pdf, err := Map(s, fixturePlan(), Options{})
	require.NoError(t, err)
	listed := strings.Fields(strings.Split(outside(t, pdf, "pdfimages", func(f string) []string { return []string{"-list", f} }), "\n")[2])
	w, err := strconv.Atoi(listed[3])
	require.NoError(t, err)
	turned := math.Abs(math.Cos(u.Turn.Radians()))*clip.W + math.Abs(math.Sin(u.Turn.Radians()))*clip.H
	assert.LessOrEqual(t, float64(w), turned*pngPerMM+4)
	assert.Less(t, len(pdf), 200<<10)
}

// Hidden floor plans and those of no level of the map are not shown, and a
// picture that is gone is named in the legend.
func TestFloorPlansNotShown(t *testing.T) {
	s := fixtureSite()
	for i, change := range []func(*site.Underlay){
		func(u *site.Underlay) { u.Hidden = true },
		func(u *site.Underlay) { u.Level = "Attic" },
		func(u *site.Underlay) { u.Dim = 1 },
		func(u *site.Underlay) { u.Data, u.File = nil, "plans/gone.png" },
		func(u *site.Underlay) { u.Data = []byte("no picture") },
	} {
		u := floorPlan(t, "")
		u.ID, u.Label = site.UnderlayID(fmt.Sprint("u", i)), fmt.Sprint("Storey ", i)
		change(&u)
		s.Underlays = append(s.Underlays, u)
	}
	pdf, err := Map(s, fixturePlan(), Options{Folder: t.TempDir()})
	require.NoError(t, err)
	_, _, n := magic(rasterised(t, pdf, 60))
	assert.Zero(t, n)
	text := strings.Join(strings.Fields(outside(t, pdf, "pdftotext", func(f string) []string { return []string{f, "-"} })), " ")
	assert.Contains(t, text, "floor plan missing: Storey 3")
	assert.Contains(t, text, "floor plan missing: Storey 4")
	for i := range 3 {
		assert.NotContains(t, text, fmt.Sprint("Storey ", i))
	}
}
