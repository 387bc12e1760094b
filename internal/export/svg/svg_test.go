package svg

import (
	"encoding/base64"
	"encoding/xml"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/drawing"
)

func sheet() *drawing.Sheet {
	var l drawing.List
	l.Add(drawing.Drains, drawing.Path{
		Points: []drawing.Point{{X: 0, Y: 0}, {X: 10, Y: 5}},
		Pen:    drawing.Pen{Width: 0.9, Ink: drawing.Blue, Dash: []float64{0, 1.4}, Round: true},
	})
	l.Add(drawing.Lays, drawing.Mark{Symbol: drawing.Disc, Size: 2, Fill: &drawing.Yellow})
	l.Add(drawing.Notes, drawing.Text{
		At: drawing.Point{X: 2, Y: 3}, S: `Sink <2> & "bar" ½`, Wide: 12, Turn: math.Pi / 2,
		Style: drawing.Style{Pt: 8, Bold: true, Align: drawing.Right, Ink: drawing.Grey},
	})
	return &drawing.Sheet{W: 279.4, H: 215.9, Panels: []drawing.Panel{
		{Frame: drawing.Frame{Scale: 5}, Clip: &drawing.Box{X: 1, Y: 1, W: 100, H: 100}, List: l}, {List: l},
	}}
}

func TestEncode(t *testing.T) {
	got := string(Encode([]*drawing.Sheet{sheet(), sheet()}, "en", "A & B", "Scale 1:200"))
	assert.Equal(t, got, string(Encode([]*drawing.Sheet{sheet(), sheet()}, "en", "A & B", "Scale 1:200")))
	d := xml.NewDecoder(strings.NewReader(got))
	open, groups := 0, 0
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		switch e := tok.(type) {
		case xml.StartElement:
			open++
			if e.Name.Local == "g" {
				groups++
			}
		case xml.EndElement:
			open--
		}
	}
	assert.Zero(t, open)
	assert.Equal(t, 2*(1+1+3+3), groups, "a sheet, one clip, three layers in each of two panels")
	for _, want := range []string{
		`width="279.4mm" height="431.8mm" viewBox="0 0 279.4 431.8"`, `translate(0 215.9)`, `<title>A &amp; B</title>`,
		`<path d="M0 0L50 -25" fill="none" stroke="#0072b2" stroke-width="0.9" stroke-linecap="round" stroke-dasharray="0 1.4"/>`,
		`<g class="hose-lays">`, `fill="#f0e442"`, `text-anchor="end"`, `transform="rotate(-90 10 -15)"`, `textLength="12"`,
		`Sink &lt;2&gt; &amp; &#34;bar&#34; ½`,
	} {
		assert.Contains(t, got, want)
	}
}

func TestNum(t *testing.T) {
	for v, want := range map[float64]string{0: "0", -0.001: "0", 1.5: "1.5", 10: "10", 0.126: "0.13", -2.5: "-2.5"} {
		assert.Equal(t, want, num(v))
	}
}

// A picture stands in the document itself, as a PNG that reads back.
func TestPicture(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 3, 2))
	img.Set(1, 1, color.RGBA{200, 10, 10, 255})
	var l drawing.List
	l.Add(drawing.Base, drawing.Picture{Image: img, At: drawing.Point{X: 4, Y: -2}, W: 6, H: 4, Turn: math.Pi / 2, Dim: 0.25})
	l.Add(drawing.Base, drawing.Picture{Image: image.NewRGBA(image.Rectangle{}), W: 6, H: 4})
	s := &drawing.Sheet{W: 100, H: 100, Panels: []drawing.Panel{{Frame: drawing.Frame{Scale: 5}, List: l}}}
	doc := Encode([]*drawing.Sheet{s}, "en", "picture", "")
	assert.Equal(t, doc, Encode([]*drawing.Sheet{s}, "en", "picture", ""), "the same bytes twice")
	type element struct {
		X         float64 `xml:"x,attr"`
		Y         float64 `xml:"y,attr"`
		Width     float64 `xml:"width,attr"`
		Height    float64 `xml:"height,attr"`
		Opacity   float64 `xml:"opacity,attr"`
		Transform string  `xml:"transform,attr"`
		Href      string  `xml:"http://www.w3.org/1999/xlink href,attr"`
	}
	var read struct {
		Images []element `xml:"g>image"`
	}
	require.NoError(t, xml.Unmarshal(doc, &read))
	require.Len(t, read.Images, 1, "an image without a dot is left out")
	got := read.Images[0]
	assert.Equal(t, element{5, 0, 30, 20, 0.75, "rotate(-90 20 10)", got.Href}, got)
	data, ok := strings.CutPrefix(got.Href, "data:image/png;base64,")
	require.True(t, ok)
	back, err := png.Decode(base64.NewDecoder(base64.StdEncoding, strings.NewReader(data)))
	require.NoError(t, err)
	assert.Equal(t, color.NRGBA{200, 10, 10, 255}, back.At(1, 1))
}
