package svg

import (
	"encoding/xml"
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
