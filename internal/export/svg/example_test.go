package svg_test

import (
	"fmt"
	"strings"

	"linemap/internal/export/drawing"
	"linemap/internal/export/svg"
)

// Ten metres of pipe at 1:100 are 100 mm of paper.
func Example() {
	var l drawing.List
	l.Add(drawing.Drains, drawing.Path{Points: []drawing.Point{{}, {X: 10}}, Pen: drawing.Pen{Width: 0.9}})
	sheet := &drawing.Sheet{W: 120, H: 20, Panels: []drawing.Panel{{
		Frame: drawing.Frame{Paper: drawing.Point{X: 10, Y: 10}, Scale: 10}, List: l,
	}}}
	out := string(svg.Encode([]*drawing.Sheet{sheet}, "en", "One pipe", "Scale 1:100"))
	for _, line := range strings.Split(out, "\n") {
		if strings.HasPrefix(line, "<path") {
			fmt.Println(line)
		}
	}
	// Output:
	// <path d="M10 10L110 10" fill="none" stroke="#000000" stroke-width="0.9"/>
}
