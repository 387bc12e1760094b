package board

import (
	"bytes"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/ui/view"
)

// near holds that two places on the ground are one to a hundredth of a pixel.
func (b *bench) near(want, got network.Point, msg string) {
	b.t.Helper()
	d, e := b.view.Dot(want), b.view.Dot(got)
	assert.InDelta(b.t, d.X, e.X, 0.01, msg)
	assert.InDelta(b.t, d.Y, e.Y, 0.01, msg)
}

func TestWheelZoomsAtThePointer(t *testing.T) {
	b := demo(t, "flats")
	for _, dy := range []float32{10, 25, -10, -60, 1e9, -1e9} {
		before, scale := b.ground(333, 222), b.view.Scale
		b.scroll(333, 222, 0, dy)
		b.near(before, b.ground(333, 222), "the ground under the pointer stays")
		if dy > 0 {
			assert.Greater(t, b.view.Scale, scale)
		} else {
			assert.Less(t, b.view.Scale, scale)
		}
	}
}

func TestWheelPans(t *testing.T) {
	b := demo(t, "flats")
	for _, c := range []struct {
		name   string
		key    fyne.KeyName
		dx, dy float32
	}{
		{"with Shift sideways", desktop.KeyShiftLeft, 40, 0},
		{"with Ctrl up and down", desktop.KeyControlRight, 0, 40},
	} {
		t.Run(c.name, func(t *testing.T) {
			b.move(500, 500)
			b.KeyDown(&fyne.KeyEvent{Name: c.key})
			was, scale := b.ground(500, 500), b.view.Scale
			b.scroll(500, 500, 0, 10)
			assert.Equal(t, scale, b.view.Scale)
			b.near(was, b.ground(500+c.dx, 500+c.dy), "moves by four pixels for each of the wheel")
			b.KeyUp(&fyne.KeyEvent{Name: c.key})
			b.scroll(500, 500, 0, 10)
			assert.Greater(t, b.view.Scale, scale, "let go, the wheel zooms")
		})
	}
}

func TestMiddleDragPans(t *testing.T) {
	b := demo(t, "flats")
	b.click(20, 20)
	was, revision, sel := b.ground(100, 100), b.desk.Revision(), b.desk.Selection().Len()
	b.drag(desktop.MouseButtonTertiary, 100, 100, 260, 190)
	b.near(was, b.ground(260, 190), "the ground goes with the pointer")
	assert.Equal(t, revision, b.desk.Revision())
	assert.Equal(t, sel, b.desk.Selection().Len())
}

func TestSpaceDragPans(t *testing.T) {
	b := demo(t, "flats")
	b.Focus()
	b.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
	assert.Equal(t, desktop.PointerCursor, b.Cursor())
	was := b.ground(100, 100)
	b.drag(desktop.MouseButtonPrimary, 100, 100, 60, 190)
	b.near(was, b.ground(60, 190), "the ground goes with the pointer")
	b.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
	was = b.ground(100, 100)
	b.drag(desktop.MouseButtonPrimary, 1300, 850, 1350, 880)
	b.near(was, b.ground(100, 100), "without the key a drag is the tool's")

	b.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
	b.FocusLost()
	assert.NotEqual(t, desktop.PointerCursor, b.Cursor(), "the key may be let go elsewhere")
}

func TestFitAndZoomTo(t *testing.T) {
	b := demo(t, "flats")
	for _, p := range places(b.desk.Site(), func(l string) bool { return l == b.desk.Level() }) {
		d := b.view.Dot(p)
		assert.True(t, d.X >= margin-1 && d.Y >= margin-1 && d.X <= wide-margin+1 && d.Y <= high-margin+1, "%v", d)
	}
	net := &b.desk.Site().Network
	last := &net.Nodes[len(net.Nodes)-1]
	b.ZoomTo(edit.NodeRef(last.ID))
	assert.Equal(t, last.Level, b.desk.Level(), "the level of the thing is shown")
	d := b.view.Dot(last.At)
	assert.InDelta(t, wide/2, d.X, 1)
	assert.InDelta(t, high/2, d.Y, 1)

	was := b.view
	b.ZoomTo(edit.NodeRef("gone"))
	b.ZoomTo()
	assert.Equal(t, was, b.view)
}

// The bitmap lies where its ground lies, whatever was done since it was painted.
func TestBitmapLiesOnItsGround(t *testing.T) {
	b := demo(t, "flats")
	holds := func(msg string) {
		t.Helper()
		v := b.shown.job.view
		img := b.layer.bitmap
		for _, c := range []view.Dot{{}, {X: v.W, Y: v.H}, {X: v.W / 3, Y: v.H / 5}} {
			want := b.view.Dot(v.Ground(c))
			assert.InDelta(t, want.X, float64(img.Position().X)+c.X/v.W*float64(img.Size().Width), 0.05, msg)
			assert.InDelta(t, want.Y, float64(img.Position().Y)+c.Y/v.H*float64(img.Size().Height), 0.05, msg)
		}
		assert.InDelta(t, float64(img.Size().Width)/float64(img.Size().Height), v.W/v.H, 1e-3, "not stretched")
	}
	settled := func(msg string) {
		t.Helper()
		holds(msg)
		b.rest()
		holds(msg)
		size := b.shown.img.Rect.Size()
		assert.InDelta(t, float64(size.X), float64(b.layer.bitmap.Size().Width), 0.01, "a dot of the bitmap is one of the screen")
		assert.InDelta(t, float64(size.Y), float64(b.layer.bitmap.Size().Height), 0.01)
		x, y := float64(b.layer.bitmap.Position().X), float64(b.layer.bitmap.Position().Y)
		assert.InDelta(t, 0, x-float64(int(x)), 0.01, "and lies on it")
		assert.InDelta(t, 0, y-float64(int(y)), 0.01)
	}
	settled("at first")
	b.scroll(300, 300, 0, 20)
	settled("zoomed")
	b.drag(desktop.MouseButtonTertiary, 100, 100, 110, 90)
	settled("panned a little")
	for _, size := range []fyne.Size{{Width: 801, Height: 613}, {Width: 1000.5, Height: 333}, {Width: 1900, Height: 1000}} {
		b.win.Resize(size)
		holds("resized")
		b.rest()
		holds("resized")
	}
}

func TestRepaintNearTheMargin(t *testing.T) {
	b := demo(t, "flats")
	b.rest()
	asked := b.asked
	b.SetView(b.view.Pan(50, -30))
	assert.Same(t, asked, b.asked, "well within the margin the bitmap is moved")
	for range 12 {
		b.SetView(b.view.Pan(50, 0))
	}
	assert.NotSame(t, asked, b.asked, "near it another is asked for")
	b.rest()
	corner := b.shown.job.view.Dot(b.view.Ground(view.Dot{}))
	assert.GreaterOrEqual(t, corner.X, 0.3*border*wide)
	assert.GreaterOrEqual(t, corner.Y, 0.3*border*high)
}

func TestDensity(t *testing.T) {
	b := demo(t, "restaurant")
	c := b.win.Canvas().(test.WindowlessCanvas)
	size := b.shown.img.Rect.Size()
	c.SetScale(2)
	b.win.Resize(fyne.NewSize(700, 450))
	b.win.Resize(fyne.NewSize(1400, 900))
	b.rest()
	assert.Equal(t, 2.0, b.shown.job.density)
	assert.InDelta(t, 2*float64(size.X), float64(b.shown.img.Rect.Dx()), 2)

	c.SetScale(20)
	b.win.Resize(fyne.NewSize(1401, 900))
	b.rest()
	dots := b.shown.img.Rect.Dx() * b.shown.img.Rect.Dy()
	assert.InEpsilon(t, most, dots, 0.01, "as sharp as the bitmap may be large")
}

func TestThemeChangeRepaints(t *testing.T) {
	b := demo(t, "restaurant")
	require.False(t, b.shown.job.look.Dark)
	paper := b.shown.img.RGBAAt(0, 0)
	fyne.CurrentApp().Settings().SetTheme(night)
	b.Refresh()
	b.rest()
	assert.True(t, b.shown.job.look.Dark)
	assert.NotEqual(t, paper, b.shown.img.RGBAAt(0, 0))
}

// The light may change before the board was ever refreshed: a window that opens
// by night and is turned to daylight.
func TestDaylightRepaintsAWindowOpenedByNight(t *testing.T) {
	b := demo(t, "restaurant")
	fyne.CurrentApp().Settings().SetTheme(night)
	b.ShowPlan(!b.PlanShown())
	b.rest()
	require.True(t, b.shown.job.look.Dark)
	fyne.CurrentApp().Settings().SetTheme(day)
	b.Refresh()
	b.rest()
	assert.False(t, b.shown.job.look.Dark)
}

// What pans with the board must not jump when it is painted anew: what was on
// the screen before and still is looks the same.
func TestNothingJumpsWhilePanning(t *testing.T) {
	if testing.Short() {
		t.Skip("paints many bitmaps")
	}
	estate := newBench(t, town(t, 2000))
	estate.ZoomBy(5)
	boards := []*bench{estate}
	for _, name := range []string{"flats", "school"} {
		b := demo(t, name)
		b.ZoomBy(1.7)
		boards = append(boards, b)
	}
	for i, b := range boards {
		b.rest()
		differ, both := 0, 0
		for step := range 12 {
			before := b.shown
			dx, dy := 97+40*(step%6), -61*(step%2)
			b.SetView(b.view.Pan(float64(dx), float64(dy)))
			b.repaint()
			b.rest()
			now := b.shown
			require.NotSame(t, before, now)
			corner := now.job.view.Dot(b.view.Ground(view.Dot{}))
			left, top := int(math.Round(corner.X)), int(math.Round(corner.Y))
			for y := max(0, dy); y < min(high, high+dy); y++ {
				p := now.img.Pix[now.img.PixOffset(left+dx, top+y):][:4*(wide-dx)]
				q := before.img.Pix[before.img.PixOffset(left, top+y-dy):][:4*(wide-dx)]
				both += wide - dx
				if bytes.Equal(p, q) {
					continue
				}
				for k := range p {
					const slight = 60 // what smoothing may differ by
					if k%4 == 1 && max(p[k], q[k])-min(p[k], q[k]) > slight {
						differ++
					}
				}
			}
		}
		assert.Less(t, differ, both/10_000, "board %d", i)
	}
}
