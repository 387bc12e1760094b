package drawing_test

import (
	"fmt"

	"linemap/internal/export/drawing"
)

func ExampleFrame() {
	f := drawing.Frame{Ground: drawing.Point{X: 100, Y: 50}, Paper: drawing.Point{X: 140, Y: 108}, Scale: 5} // 1:200
	fmt.Println(f.To(drawing.Point{X: 110, Y: 54}))
	// Output: {190 88}
}
