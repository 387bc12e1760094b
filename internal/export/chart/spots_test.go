package chart

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/export/drawing"
	"linemap/internal/export/paper"
	"linemap/internal/network"
	"linemap/internal/route"
)

// A map of spots, in a low box and in a high one: nothing on it overlaps or leaves
// the box, every set-up and every spot used is named, and the lettering is larger
// than on a map.
func TestSpots(t *testing.T) {
	for _, j := range jobs(t) {
		for _, opt := range papers {
			for _, box := range []drawing.Box{{X: 12, Y: 200, W: 190, H: 45}, {X: 12, Y: 150, W: 186, H: 100}} {
				t.Run(j.name+" on "+string(opt.Paper), func(t *testing.T) {
					plan := j.plan
					if plan == nil {
						plan = &route.Plan{}
					}
					all, err := Spots(j.site, plan, opt.Units, box)
					require.NoError(t, err)
					said := ""
					for i := range all {
						assert.Empty(t, slices.DeleteFunc(overlaps(&all[i]), func(pair string) bool {
							// Spots side by side may cover the number on each other; both are named.
							_, err := strconv.Atoi(strings.Trim(pair, " |"))
							return err == nil
						}))
						for _, p := range pieces(&all[i]) {
							said += p.text + "\n"
							assert.True(t, p.centre.X-p.w/2 >= box.X-0.01 && p.centre.X+p.w/2 <= box.Right()+0.01 &&
								p.centre.Y-p.h/2 >= box.Y-0.01 && p.centre.Y+p.h/2 <= box.Bottom()+0.01, "%q at %v", p.text, p.centre)
						}
						for _, it := range all[i].Items {
							if text, ok := it.Shape.(drawing.Text); ok {
								assert.Greater(t, text.Style.Pt, 8.0, text.S)
							}
							assert.Equal(t, drawing.Base, it.Layer)
						}
					}
					assert.Contains(t, said, "1:", "a scale")
					g, _ := network.Trace(&j.site.Network)
					d := newDraft(j.site, g, plan, &paper.Ruler{}, opt.Units)
					for id, stays := range d.visits {
						assert.Contains(t, said, "Set-up "+numbers(stays))
						assert.Contains(t, said, strings.Fields(spotName(d.spot(id)))[0])
					}
				})
			}
		}
	}
}

// A pipe measures on a map of spots as its scale says: the longest one on paper
// against the site.
func TestSpotsAreToScale(t *testing.T) {
	s := shop()
	all, err := Spots(s, shopPlan(), papers[1].Units, drawing.Box{X: 5, Y: 5, W: 190, H: 60})
	require.NoError(t, err)
	g, _ := network.Trace(&s.Network)
	ground, onPaper := 0.0, 0.0
	for p := range s.Network.Pipes {
		ground = max(ground, lengthOf(trace(g, p)))
	}
	for _, it := range all[0].Items {
		if line, ok := it.Shape.(drawing.Path); ok && len(line.Pen.Dash) == 0 {
			at := make([]drawing.Point, len(line.Points))
			for i, q := range line.Points {
				at[i] = all[0].Frame.To(q)
			}
			onPaper = max(onPaper, lengthOf(at))
		}
	}
	ratio := ""
	for _, p := range pieces(&all[1]) {
		if strings.HasPrefix(p.text, "1:") {
			ratio = p.text
		}
	}
	assert.Equal(t, scaleText(papers[1].Units, math.Round(ground*fullSize/onPaper)), ratio)
}
