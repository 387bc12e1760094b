package desk

import (
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// Selection is what is selected.
func (d *Desk) Selection() edit.Selection { return d.selection }

// Select selects, instead of what was selected.
func (d *Desk) Select(s edit.Selection) {
	d.selection = s.Keep(edit.Everything(d.Site()).Has)
	d.tell(Selected)
}

// Level is the name of the level that is drawn on, "" on a site without levels.
func (d *Desk) Level() string { return d.level }

// SetLevel shows another level; what is selected elsewhere no longer is.
func (d *Desk) SetLevel(name string) {
	if name = d.levelOr(name); name != d.level {
		d.level = name
		d.selection = edit.Selection{}
		d.tell(Level | Selected)
	}
}

// levelOr returns name where that is a level of the site, else the one that the
// site opens on.
func (d *Desk) levelOr(name string) string {
	s := d.Site()
	for i := range s.Network.Levels {
		if s.Network.Levels[i].Name == name {
			return name
		}
	}
	return MainLevel(s)
}

// MainLevel is the level that a site opens on: the one with the outlet, else the
// first; "" on a site without levels.
func MainLevel(s *site.Site) string {
	if len(s.Network.Levels) == 0 {
		return ""
	}
	for i := range s.Network.Nodes {
		if n := &s.Network.Nodes[i]; n.Kind == network.KindOutlet && n.Level != "" {
			return n.Level
		}
	}
	return s.Network.Levels[0].Name
}

// PipeStyle is what the next pipe is made of.
func (d *Desk) PipeStyle() edit.PipeStyle { return d.style }

// SetPipeStyle says what the next pipe is made of.
func (d *Desk) SetPipeStyle(s edit.PipeStyle) {
	d.style = s
	d.tell(Style)
}

// Grid is how the pointer is helped.
func (d *Desk) Grid() Grid { return d.grid }

// SetGrid says how the pointer is helped.
func (d *Desk) SetGrid(g Grid) {
	d.grid = g
	d.tell(Style)
}

// styleOf is what the next pipe of a site is made of to begin with: like most of
// its lying pipe, else what most building drains are.
func styleOf(s *site.Site) edit.PipeStyle {
	fall := unit.InchesPerFoot(0.25)
	most := edit.PipeStyle{
		Size: 4, Material: network.PVC40, Slope: &fall, Class: network.BuildingDrain, Deposit: network.Sediment, Severity: network.Moderate,
	}
	type kind struct {
		size     unit.Size
		material network.Material
		class    network.PipeClass
		deposit  network.Deposit
	}
	count, best := map[kind]int{}, 0
	for i := range s.Network.Pipes {
		p := &s.Network.Pipes[i]
		k := kind{p.Size, p.Material, p.Class, p.Deposit}
		if count[k]++; count[k] > best && p.Class != network.Stack {
			best = count[k]
			most.Size, most.Material, most.Class, most.Deposit = p.Size, p.Material, p.Class, p.Deposit
		}
	}
	return most
}
