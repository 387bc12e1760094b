package hand_test

import (
	"fmt"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/ui/aim"
	"linemap/internal/ui/hand"
	"linemap/internal/ui/view"
	"linemap/internal/unit"
)

// A tool takes what pointer and keys do, and answers with what is to be done.
func Example() {
	s, err := site.New(unit.US)
	if err != nil {
		panic(err)
	}
	g, _ := network.Trace(&s.Network)
	w := &hand.World{Site: s, Graph: g, Index: aim.NewIndex(s, g), View: view.View{Scale: 20, W: 800, H: 600}}
	w.Style.Size, w.Style.Material, w.Style.Class = 4, network.PVC40, network.BuildingDrain

	tool := hand.NewDraw()
	tool.Handle(w, hand.Event{Kind: hand.Press, Clicks: 1})
	for _, r := range "12-6@90" {
		tool.Handle(w, hand.Event{Kind: hand.Rune, Rune: r})
	}
	fmt.Println(tool.Ghost(w).Texts[0].S)
	tool.Handle(w, hand.Event{Kind: hand.Key, Key: "Return"})
	reply := tool.Handle(w, hand.Event{Kind: hand.Key, Key: "Return"})
	fmt.Println(reply.Edit.Name())
	// Output:
	// 12-6, bearing 90_: 12 ft 6 in, bearing 90°
	// draw pipe
}
