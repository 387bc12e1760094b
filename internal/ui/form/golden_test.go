package form

import (
	"flag"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"linemap/internal/site/edit"
)

var update = flag.Bool("update", false, "write the goldens anew")

// sameMarkup holds a canvas against a golden of its structure.
func sameMarkup(t *testing.T, name string, c fyne.Canvas) {
	t.Helper()
	if *update {
		path := filepath.Join("testdata", name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(test.RenderToMarkup(c)), 0o644))
	}
	test.AssertRendersToMarkup(t, name, c)
}

// sameImage holds a canvas against a golden of its dots.
func sameImage(t *testing.T, name string, c fyne.Canvas) {
	t.Helper()
	if *update {
		path := filepath.Join("testdata", name)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		f, err := os.Create(path)
		require.NoError(t, err)
		require.NoError(t, png.Encode(f, c.Capture()))
		require.NoError(t, f.Close())
	}
	test.AssertRendersToImage(t, name, c)
}

func TestCards(t *testing.T) {
	b := newBench(t, "restaurant")
	b.planned()
	gap := b.Planning().Plan.Shortfalls[0].Pipe
	for _, c := range []struct {
		name string
		sel  []edit.Ref
	}{
		{"access", []edit.Ref{edit.NodeRef("co-1")}},
		{"junction", []edit.Ref{edit.NodeRef("j04")}},
		{"pipe", []edit.Ref{edit.PipeRef("p011")}},
		{"not_cleaned", []edit.Ref{edit.PipeRef(gap)}},
		{"many", []edit.Ref{edit.PipeRef("p011"), edit.PipeRef("p001")}},
		{"several_kinds", []edit.Ref{edit.PipeRef("p011"), edit.NodeRef("co-1")}},
		{"spot", []edit.Ref{edit.SpotRef(b.Site().Spots[0].ID)}},
		{"water", []edit.Ref{edit.WaterRef(b.Site().Water[0].ID)}},
		{"nothing", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, w := shown(t, b, false, 1, c.sel...)
			sameMarkup(t, "card_"+c.name+".xml", w.Canvas())
		})
	}
}

func TestCardsLookRight(t *testing.T) {
	b := newBench(t, "restaurant")
	b.planned()
	for name, dark := range map[string]bool{"day": false, "night": true} {
		c, w := shown(t, b, dark, 1, edit.NodeRef("co-1"))
		w.Resize(fyne.NewSize(320, 420))
		fill(t, w, entryOf(t, cardLines(t, c)["Riser"]), "9000 ft") // with what is wrong under it
		w.Canvas().Unfocus()
		sameImage(t, "access_"+name+".png", w.Canvas())
		_, w = shown(t, b, dark, 1.5, edit.PipeRef(b.Planning().Plan.Shortfalls[0].Pipe))
		w.Resize(fyne.NewSize(320, 420))
		sameImage(t, "not_cleaned_"+name+".png", w.Canvas())
	}
}

// TestNothingClips: at every width and size of text the card is used at, each
// input lies within the card and is as high as it asks to be.
func TestNothingClips(t *testing.T) {
	b := newBench(t, "restaurant")
	b.planned()
	s := b.Site()
	for _, scale := range []float32{1, 1.5} {
		c, w := shown(t, b, false, scale)
		for _, width := range []float32{300, 320, 360} {
			w.Resize(fyne.NewSize(width, 1600))
			for _, r := range []edit.Ref{
				edit.NodeRef("co-1"), edit.NodeRef("j04"), edit.PipeRef("p011"), edit.SpotRef(s.Spots[0].ID), edit.WaterRef(s.Water[0].ID),
			} {
				b.Select(edit.Select(r))
				for _, l := range cardLines(t, c) {
					if l.visible() {
						fits(t, w, l, width, scale)
					}
				}
			}
		}
	}
}

// fits looks whether an input lies within a card's width and has the room that
// it asks for.
func fits(t *testing.T, w fyne.Window, l anyLine, width, scale float32) {
	t.Helper()
	o := l.in().object()
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	area, _ := w.Canvas().InteractiveArea() // from which places are told
	at = at.Add(area)
	where := fmt.Sprintf("%q, %v wide, text %v", l.labelled(), width, scale)
	require.GreaterOrEqual(t, at.X, float32(0), where)
	require.LessOrEqual(t, at.X+o.Size().Width, width, where)
	require.GreaterOrEqual(t, o.Size().Width, o.MinSize().Width, where)
	require.GreaterOrEqual(t, o.Size().Height, o.MinSize().Height, where)
}
