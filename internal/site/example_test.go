package site_test

import (
	"errors"
	"fmt"
	"strings"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// A new document has a default rig and an empty drain. What is put into it in
// feet and degrees is kept in metres and degrees.
func Example() {
	s, err := site.New(unit.US)
	if err != nil {
		fmt.Println(err)
		return
	}
	s.Job.Title = "Example bakery"
	s.Network.Nodes = []network.Node{
		{ID: "out", Kind: network.KindOutlet},
		{
			ID: "co1", Label: "CO-1", Kind: network.KindAccess, At: network.Point{X: unit.Feet(25)},
			Access: &network.Access{Kind: network.TwoWayCleanout, Size: 4, Entry: unit.Degrees(45)},
		},
	}
	s.Network.Pipes = []network.Pipe{
		{ID: "p1", From: "co1", To: "out", Size: 4, Material: network.Clay, Class: network.BuildingSewer},
	}
	data, err := site.Encode(s)
	if err != nil {
		fmt.Println(err)
		return
	}
	for line := range strings.Lines(string(data)) {
		if strings.Contains(line, "pipes") {
			break
		}
		fmt.Print(line)
	}
	// Output:
	// {
	//   "linemap": 1,
	//   "job": {"title": "Example bakery"},
	//   "units": "us",
	//   "paper": "letter",
	//   "code": "ipc",
	//   "network": {
	//     "nodes": [
	//       {"id": "out", "kind": "outlet", "at": {"x": 0, "y": 0}},
	//       {
	//         "id": "co1",
	//         "label": "CO-1",
	//         "kind": "access",
	//         "at": {"x": 7.62, "y": 0},
	//         "access": {"kind": "cleanout_two_way", "size": 4, "entry": 45}
	//       }
	//     ],
}

// A document that cannot be loaded says where, what was found and what must be
// there, for as many places as there are.
func ExampleDecode() {
	_, err := site.Decode([]byte(`{
		"linemap": 1, "job": {"title": "Torn"}, "units": "us", "paper": "legal", "code": "ipc",
		"network": {"nodes": [{"id": "f1", "kind": "fixture", "at": {"x": 0, "y": "north"}}], "pipes": []}, "spots": []
	}`))
	var e *site.LoadError
	if errors.As(err, &e) {
		for _, p := range e.Problems {
			fmt.Println(p)
		}
	}
	// Output:
	// paper: found "legal", must be one of "letter", "a4"
	// network.nodes[f1].at.y: found "north", must be a number from -100000 to 100000 m
	// rig: found nothing, must be an object {}
}
