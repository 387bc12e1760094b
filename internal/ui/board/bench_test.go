package board

import (
	"fmt"
	"testing"

	"linemap/internal/site/edit"
	"linemap/internal/ui/look"
	"linemap/internal/ui/view"
	"linemap/internal/unit"
)

// A frame of panning and of zooming: all that happens on the goroutine of the
// window before Fyne draws.
func BenchmarkFrame(b *testing.B) {
	for _, pipes := range []int{500, 2000, 10_000} {
		board := newBench(b, town(b, pipes))
		board.ZoomBy(4)
		board.rest()
		b.Run(fmt.Sprintf("pan/%d", pipes), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				board.SetView(board.view.Pan(float64(3-6*(i/50%2)), 1))
				board.take()
			}
		})
		b.Run(fmt.Sprintf("zoom/%d", pipes), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				board.SetView(board.view.Zoom(view.Dot{X: 300, Y: 400}, 1.01-0.0199*float64(i/20%2)))
				board.take()
			}
		})
		some := board.desk.Site().Network.Nodes[:300]
		var sel edit.Selection
		for i := range some {
			sel = edit.Select(append(sel.Refs(), edit.Ref{Kind: edit.Node, ID: string(some[i].ID)})...)
		}
		board.desk.Select(sel)
		b.Run(fmt.Sprintf("pan with 300 selected/%d", pipes), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				board.SetView(board.view.Pan(float64(3-6*(i/50%2)), 1))
				board.take()
			}
		})
		board.rest()
	}
}

// A settled picture, with the drawing made ready anew as after an edit.
func BenchmarkPicture(b *testing.B) {
	for _, pipes := range []int{500, 2000, 10_000} {
		s := town(b, pipes)
		v := view.View{W: 2240, H: 1440, Scale: 1}.Fit(places(s, func(string) bool { return true }), 400)
		for name, v := range map[string]view.View{"whole": v, "near": v.Zoom(view.Dot{X: 1120, Y: 720}, 12)} {
			b.Run(fmt.Sprintf("%s/%d", name, pipes), func(b *testing.B) {
				for b.Loop() {
					j := &job{site: s, view: v, density: 1, look: look.Day, grid: true}
					j.opt.Units, j.opt.Ghost = unit.US, true
					if pic := new(painter).picture(j); pic.err != nil {
						b.Fatal(pic.err)
					}
				}
			})
		}
	}
}
