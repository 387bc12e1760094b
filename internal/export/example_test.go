package export_test

import (
	"fmt"

	"linemap/internal/export"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func ExampleOptions_For() {
	s := &site.Site{Job: site.Job{Title: "Old Mill, Unit 3"}, Paper: site.A4, Units: unit.Metric}
	opt := export.Options{Units: unit.US}.For(s)
	fmt.Println(opt.Name, opt.Paper, opt.Units)
	// Output: old-mill-unit-3 a4 us
}

func ExampleCheckLists() {
	r := &rig.Rig{Tank: rig.Tank{Start: unit.Gallons(165), Stop: unit.Gallons(40)}}
	between := export.CheckLists(r, unit.US)[3]
	fmt.Println(between.Head)
	fmt.Println(between.Items[4])
	// Output:
	// Between runs
	// Tank at 165 gal or more; stop at 40 gal
}
