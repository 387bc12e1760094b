package chart_test

import (
	"fmt"

	"linemap/internal/export/chart"
	"linemap/internal/network/sketch"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// A map of a drain alone, before anything is planned.
func ExampleDraw() {
	s := &site.Site{Network: *sketch.Must("OUT -60ft/6in/clay- MH1 -45ft/4in/iron- CO1(up)")}
	c, err := chart.Draw(s, nil, chart.Options{Paper: site.Letter, Units: unit.US})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(c.Sheets), "sheet,", c.Scale)
	// Output: 1 sheet, 1/16 in = 1 ft (1:192)
}
