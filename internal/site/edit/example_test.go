package edit_test

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

func ExampleDrawPipe() {
	s, err := site.New(unit.US)
	if err != nil {
		fmt.Println(err)
		return
	}
	history := edit.NewHistory(s)
	place := func(x, y float64) network.Point { return network.Point{X: unit.Feet(x), Y: unit.Feet(y)} }
	style := edit.PipeStyle{Size: 4, Material: network.PVC40, Class: network.BuildingDrain, Deposit: network.Grease}

	// A drain from the sewer into the building, and a lateral that meets it.
	drain, _ := edit.DrawPipe(s, edit.Anchor{At: place(0, 0)}, nil, edit.Anchor{At: place(60, 0)}, style)
	history.Do(drain)
	outlet, _ := edit.PlaceNode(s, edit.Anchor{Node: s.Network.Nodes[0].ID}, network.KindOutlet, style)
	history.Do(outlet)
	onto := edit.Anchor{Pipe: network.PipeID(drain.Made()[0].ID), At: place(40, 0)}
	lateral, _ := edit.DrawPipe(s, edit.Anchor{At: place(50, 10)}, nil, onto, style)
	history.Do(lateral)

	for i := range s.Network.Nodes {
		fmt.Println(s.Network.Nodes[i].Name())
	}
	fmt.Println("undo", history.NextUndo())
	// Output:
	// outlet n1
	// cap n2
	// cap n3
	// wye n4
	// undo draw pipe
}
