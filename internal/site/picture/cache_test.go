package picture

import (
	"image"
	"image/color"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
)

func TestLoadFromTheDocument(t *testing.T) {
	var c Cache
	u := &site.Underlay{ID: "u1", Data: pngOf(t, plan(40, 30))}
	shown, err := c.Load(u, "")
	require.NoError(t, err)
	assert.Equal(t, plan(40, 30), shown.Image)
	assert.Equal(t, image.Pt(40, 30), shown.Size)
	assert.Equal(t, 1, shown.Factor)

	again, err := c.Load(u, "")
	require.NoError(t, err)
	assert.Same(t, shown, again, "decoded once")
	copied := &site.Underlay{ID: "u2", Data: append([]byte(nil), u.Data...)}
	again, err = c.Load(copied, "")
	require.NoError(t, err)
	assert.Same(t, shown, again, "by what is in it")
}

func TestLoadFromAFile(t *testing.T) {
	var c Cache
	dir := t.TempDir()
	file := filepath.Join(dir, "plans", "a.png")
	require.NoError(t, os.Mkdir(filepath.Dir(file), 0o700))
	require.NoError(t, os.WriteFile(file, pngOf(t, plan(40, 30)), 0o600))
	u := &site.Underlay{ID: "u1", File: "plans/a.png"}
	shown, err := c.Load(u, dir)
	require.NoError(t, err)
	again, err := c.Load(u, dir)
	require.NoError(t, err)
	assert.Same(t, shown, again)

	require.NoError(t, os.WriteFile(file, pngOf(t, plan(50, 30)), 0o600))
	require.NoError(t, os.Chtimes(file, time.Now(), time.Now().Add(time.Hour)))
	again, err = c.Load(u, dir)
	require.NoError(t, err)
	assert.Equal(t, image.Pt(50, 30), again.Size, "the file changed")

	require.NoError(t, os.Remove(file))
	_, err = c.Load(u, dir)
	assert.EqualError(t, err, "picture plans/a.png: no such file or directory")
}

func TestLoadRefuses(t *testing.T) {
	var c Cache
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "text.png"), []byte("North is up."), 0o600))
	outside := put(t, "secret.png", pngOf(t, plan(4, 4)))
	require.NoError(t, os.Symlink(outside, filepath.Join(dir, "link.png")))
	for name, c2 := range map[string]struct {
		u    site.Underlay
		want string
	}{
		"text":       {site.Underlay{File: "text.png"}, "picture text.png: neither a PNG nor a JPEG picture"},
		"from above": {site.Underlay{File: "../secret.png"}, "not a path inside the folder"},
		"from root":  {site.Underlay{File: outside}, "not a path inside the folder"},
		"by a link":  {site.Underlay{File: "link.png"}, "picture link.png: path escapes from parent"},
		"nothing":    {site.Underlay{ID: "u1"}, "picture u1: not a path inside the folder"},
		"a folder":   {site.Underlay{File: "."}, "not a path inside the folder"},
		"bomb":       {site.Underlay{Label: "Bomb", Data: pngHeader(60000, 60000, 8, 6)}, "picture Bomb: the picture has 60000 x 60000 dots"},
	} {
		_, err := c.Load(&c2.u, dir)
		assert.ErrorContains(t, err, c2.want, name)
		_, again := c.Load(&c2.u, dir)
		assert.Equal(t, err, again, name)
	}
}

// TestCacheIsBounded asks for more pictures than are kept: those asked for last
// stay, and nothing is remembered of the others.
func TestCacheIsBounded(t *testing.T) {
	c := Cache{most: 4 * 4 * 100 * 100}
	large := func(shade uint8) *site.Underlay {
		m := image.NewPaletted(image.Rect(0, 0, 100, 100), color.Palette{color.Gray{Y: shade}})
		return &site.Underlay{ID: "u", Data: pngOf(t, m)}
	}
	first := large(0)
	kept, err := c.Load(first, "")
	require.NoError(t, err)
	for shade := range uint8(6) {
		_, err := c.Load(large(10+shade), "")
		require.NoError(t, err)
		again, err := c.Load(first, "")
		require.NoError(t, err)
		require.Same(t, kept, again, "asked for every time")
		total := 0
		for _, e := range c.pictures {
			total += e.bytes
			assert.Nil(t, e.data)
		}
		assert.LessOrEqual(t, total, c.most)
		assert.Len(t, c.known, len(c.pictures))
	}
	assert.Len(t, c.pictures, 4)

	for range 20 { // the same picture in ever new bytes
		_, err := c.Load(&site.Underlay{ID: "u", Data: append([]byte(nil), first.Data...)}, "")
		require.NoError(t, err)
	}
	assert.LessOrEqual(t, len(c.known), 3+mostSources)

	for i := range 2 * mostPictures {
		_, err := c.Load(&site.Underlay{ID: "u", Data: []byte{byte(i), byte(i >> 8), 1}}, "")
		require.Error(t, err)
	}
	assert.LessOrEqual(t, len(c.pictures), mostPictures)
}

func TestLoadFromManyGoroutines(t *testing.T) {
	var c Cache
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "a.png"), pngOf(t, plan(300, 200)), 0o600))
	all := []*site.Underlay{
		{ID: "a", File: "a.png"},
		{ID: "b", Data: pngOf(t, plan(300, 200))},
		{ID: "c", Data: jpegOf(t, plan(200, 200))},
		{ID: "d", Data: []byte("North is up.")},
	}
	var wg sync.WaitGroup
	for i := range 32 {
		wg.Go(func() {
			u := all[i%len(all)]
			shown, err := c.Load(u, dir)
			if u.ID == "d" {
				assert.Error(t, err)
				return
			}
			if assert.NoError(t, err) {
				corner := shown.Image.RGBAAt(0, 0)
				assert.True(t, corner.R > 250 && corner.G < 5, "%s: %v", u.ID, corner)
			}
		})
	}
	wg.Wait()
	assert.Len(t, c.pictures, 3, "a and b are one")
}

// TestShrink takes the mean of the dots, so that a hairline stays to be seen.
func TestShrink(t *testing.T) {
	m := image.NewGray(image.Rect(10, 20, 17, 25)) // 7 x 5, not from the origin
	for i := range m.Pix {
		m.Pix[i] = 255
	}
	for y := 20; y < 25; y++ {
		m.SetGray(13, y, color.Gray{}) // a black line one dot wide
	}
	got := shrink(m, 3)
	require.Equal(t, image.Rect(0, 0, 3, 2), got.Rect)
	for y := range 2 {
		assert.Equal(t, color.RGBA{R: 255, G: 255, B: 255, A: 255}, got.RGBAAt(0, y))
		assert.Equal(t, color.RGBA{R: 170, G: 170, B: 170, A: 255}, got.RGBAAt(1, y), "a third is black")
		assert.Equal(t, color.RGBA{R: 255, G: 255, B: 255, A: 255}, got.RGBAAt(2, y), "a rest of one dot")
	}
	assert.Equal(t, m.Bounds().Size(), shrink(m, 1).Rect.Size())

	glass := image.NewNRGBA(image.Rect(0, 0, 2, 1))
	glass.SetNRGBA(0, 0, color.NRGBA{R: 255, A: 255})
	glass.SetNRGBA(1, 0, color.NRGBA{G: 255, A: 0}) // not to be seen, whatever its colour
	assert.Equal(t, color.RGBA{R: 128, A: 128}, shrink(glass, 2).RGBAAt(0, 0))
}

func TestLargePicturesAreShrunk(t *testing.T) {
	for size, want := range map[image.Point]int{
		{4000, 4000}: 1, {4001, 4000}: 2, {8000, 8000}: 2, {10000, 10000}: 3, {20000, 5000}: 3, {1, 1}: 1,
	} {
		factor := factorFor(size, mostShown)
		assert.Equal(t, want, factor, size)
	}
	data := pngOf(t, image.NewPaletted(image.Rect(0, 0, 5001, 4000), color.Palette{white}))
	shown, err := show(data)
	require.NoError(t, err)
	assert.Equal(t, image.Pt(5001, 4000), shown.Size)
	assert.Equal(t, 2, shown.Factor)
	assert.Equal(t, image.Pt(2501, 2000), shown.Image.Rect.Size())
}

// BenchmarkShow decodes the largest picture that there may be.
func BenchmarkShow(b *testing.B) {
	for name, side := range map[string]int{"16 million dots": 4000, "100 million dots": 10000} {
		data := pngOf(b, image.NewGray(image.Rect(0, 0, side, side)))
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := show(data); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkLoad asks for a picture that is known, as every repaint does.
func BenchmarkLoad(b *testing.B) {
	var c Cache
	u := &site.Underlay{ID: "u1", Data: pngOf(b, plan(400, 300))}
	for b.Loop() {
		if _, err := c.Load(u, ""); err != nil {
			b.Fatal(err)
		}
	}
}
