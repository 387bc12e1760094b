package strip

import (
	"context"
	"fmt"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/sample"
)

// BenchmarkPaint paints the bitmap of a long day; BenchmarkPoint is what a move of
// the pointer or of the marker costs.
func BenchmarkPaint(b *testing.B) {
	s := long(b)
	b.Run(fmt.Sprintf("%d_events", len(s.day.plan.Day)), func(b *testing.B) {
		for b.Loop() {
			s.shown.paint(1900, 150)
		}
	})
	s.zoom(900, 60)
	b.Run("zoomed", func(b *testing.B) {
		for b.Loop() {
			s.shown.paint(1900, 150)
		}
	})
}

func BenchmarkPoint(b *testing.B) {
	s := long(b)
	i := 0
	for b.Loop() {
		i++
		s.SetTime(s.day.ends / 997 * time.Duration(i%997))
		s.point(s.find(fyne.NewPos(float32(100+i%1700), 70)))
	}
}

func long(b *testing.B) *Strip {
	on := sample.Large(1, 400, 4)
	plan, err := route.Solve(context.Background(), on, sample.Tables(), route.Options{})
	require.NoError(b, err)
	s := New(Acts{})
	window(b, s, themeOf(theme.VariantLight, 1), 1900, 150)
	s.SetPlan(on, plan, false)
	return s
}
