package board

import (
	"bytes"
	"flag"
	"image/png"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/chart"
	"linemap/internal/ui/look"
	"linemap/internal/ui/view"
)

var update = flag.Bool("update", false, "write the goldens anew")

// Pictures of the demos as the board shows them, day and night, whole and near.
func TestPictures(t *testing.T) {
	for name, c := range map[string]struct {
		demo string
		look look.Look
		zoom float64
	}{
		"flats_day":         {"flats", look.Day, 1},
		"restaurant_night":  {"restaurant", look.Night, 1},
		"school_near_night": {"school", look.Night, 3},
	} {
		t.Run(name, func(t *testing.T) {
			b := demo(t, c.demo)
			at := places(b.desk.Site(), func(l string) bool { return l == b.desk.Level() })
			v := view.View{W: 288, H: 190, Scale: 1}.Fit(at, 20)
			j := &job{
				site: b.desk.Snapshot(), plan: b.desk.Planning().Plan, look: c.look, grid: true, density: 1,
				view: v.Zoom(view.Dot{X: 144, Y: 95}, c.zoom),
				opt:  chart.BoardOptions{Level: b.desk.Level(), Ghost: true, ShowPlan: true, ShowLays: true, Units: b.desk.Units()},
			}
			pic := new(painter).picture(j)
			require.NoError(t, pic.err)
			again := new(painter).picture(j)
			assert.True(t, bytes.Equal(pic.img.Pix, again.img.Pix), "the same view gives the same bytes")

			file := "testdata/" + name + ".png"
			if *update {
				var out bytes.Buffer
				encoder := png.Encoder{CompressionLevel: png.BestCompression}
				require.NoError(t, encoder.Encode(&out, pic.img))
				require.NoError(t, os.MkdirAll("testdata", 0o755))
				require.NoError(t, os.WriteFile(file, out.Bytes(), 0o644))
			}
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			assert.Less(t, len(data), 20_000)
			want, err := png.Decode(bytes.NewReader(data))
			require.NoError(t, err)
			require.Equal(t, want.Bounds(), pic.img.Rect)
			differ := 0
			for y := range pic.img.Rect.Dy() {
				for x := range pic.img.Rect.Dx() {
					r, g, b, _ := want.At(x, y).RGBA()
					got := pic.img.RGBAAt(x, y)
					const slight = 3 // machines may round a share of a dot differently
					if apart(got.R, r) > slight || apart(got.G, g) > slight || apart(got.B, b) > slight {
						differ++
					}
				}
			}
			assert.Zero(t, differ, "dots differ; see the picture, then go test -update")
		})
	}
}

func apart(a uint8, wide uint32) uint8 {
	b := uint8(wide >> 8)
	return max(a, b) - min(a, b)
}
