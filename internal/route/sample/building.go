package sample

import (
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// The levels of a building.
const (
	yard      = "Yard"
	underSlab = "Under slab"
	upstairs  = "Second floor"
	roof      = "Roof"
)

// building is a building in the making.
type building struct {
	*draft
	// inside and outside are the materials of its drain and of its sewer.
	inside, outside network.Material
	towers, small   bool
}

// Building is a commercial building of about a number of pipes, from 5 up: a
// sewer from the street, a drain with branches to rooms and the arms of their
// fixtures, in larger ones by wings and with stacks, and a kitchen behind a grease
// interceptor. Around it stand spots and water points for [ThreeHoseRig]. All of
// it is invented.
func Building(seed uint64, pipes int) *site.Site {
	b := &building{draft: newDraft(seed, 5), towers: pipes >= 60, small: pipes < 30}
	b.net.Levels = []network.Level{
		{Name: yard, Elevation: unit.Feet(-6)},
		{Name: underSlab, Elevation: unit.Feet(-4)},
		{Name: upstairs, Elevation: unit.Feet(12)},
		{Name: roof, Elevation: unit.Feet(24)},
	}
	b.inside, b.outside = network.PVC40, network.PVC40
	switch b.rand.IntN(3) {
	case 0:
		b.inside, b.outside = network.CastIron, network.Clay
	case 1:
		b.outside = network.Clay
	}
	kitchens := 0
	if pipes >= 30 {
		kitchens = min(3+pipes/60, 7)
	}
	trunk := b.trunk(pipes - b.sewerPipes(pipes) - kitchenPipes(kitchens))
	b.drawAll(pipes, trunk, kitchens)
	return b.site()
}

// piping is a pipe of the building as its class, its material and what runs in it
// make it.
func (b *building) piping(class network.PipeClass, size unit.Size, of network.Material, deposit network.Deposit) network.Pipe {
	p := network.Pipe{Class: class, Size: size, Material: of, Deposit: deposit}
	switch {
	case of == network.Clay:
		p.Deposit = network.Roots
	case of == network.CastIron && deposit == network.Sediment && b.rand.IntN(2) == 0:
		p.Deposit = network.Scale
	}
	p.Severity = []network.Severity{network.Light, network.Moderate, network.Moderate, network.Heavy}[b.rand.IntN(4)]
	return p
}

// refit is the material of a room's branch: in an old building most rooms have
// been done over.
func (b *building) refit() network.Material {
	if b.rand.IntN(4) > 0 {
		return network.PVC40
	}
	return b.inside
}

// sewerSize is the nominal size of the sewer.
func (b *building) sewerSize() unit.Size {
	if b.small {
		return 4
	}
	return 6
}

// trunk is the building drain with rooms along it, or with wings where there
// are too many for one line.
func (b *building) trunk(pipes int) *line {
	const most = 90 // pipes along one line
	l := &line{
		pipe: b.piping(network.BuildingDrain, 4, b.inside, network.Sediment), rest: 6,
		end: cleanout(network.FacesDownstream, 4, true), series: "CO",
	}
	pipes-- // the last of the trunk
	if pipes <= most {
		l.taps = b.along(b.branches(max(0, pipes)), 12)
		return l
	}
	l.pipe.Size = b.sewerSize()
	wings := (pipes + most - 1) / most
	for i := range wings {
		share := pipes / (wings - i)
		pipes -= share
		if i%2 == 0 {
			l.taps = append(l.taps, tap{gap: 30, node: cleanout(network.FacesUpstream, 4, true), series: "CO"})
			share--
		}
		t := tap{gap: 20, node: junction(network.Wye), series: "Y", line: b.wing(share - 1), left: i%2 == 0, lead: 4}
		if i == 0 {
			t.gap = 34
		}
		l.taps = append(l.taps, t)
	}
	return l
}

// wing is a main that takes a number of pipes, with a cleanout at its foot.
func (b *building) wing(pipes int) *line {
	l := &line{
		pipe: b.piping(network.Main, 4, b.inside, network.Sediment), rest: 6,
		end: cleanout(network.FacesDownstream, 4, true), series: "CO",
	}
	foot := tap{gap: 4, node: cleanout(network.FacesUpstream, 4, true), series: "CO"}
	l.taps = append([]tap{foot}, b.along(b.branches(pipes-2), 42)...)
	return l
}

// along taps lines into another, by turns on either side, the first after a lead
// of some feet.
func (b *building) along(lines []*line, lead float64) []tap {
	var taps []tap
	for i, l := range lines {
		t := tap{gap: 9 + 4*b.rand.Float64(), node: junction(network.Wye), series: "Y", line: l, left: i%2 == 0, lead: 2}
		if i == 0 {
			t.gap = lead
		}
		if b.rand.IntN(3) == 0 {
			t.node = junction(network.Combination)
		}
		taps = append(taps, t)
	}
	return taps
}
