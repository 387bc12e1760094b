package edit

import (
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// PipeStyle is what a new pipe is made of.
type PipeStyle struct {
	Size     unit.Size
	Material network.Material
	Slope    *unit.Slope
	Class    network.PipeClass
	Deposit  network.Deposit
	Severity network.Severity
}

// UsualStyle is what the next pipe of a site is made of to begin with: like most
// of its lying pipe, else what most building drains are (common practice).
func UsualStyle(s *site.Site) PipeStyle {
	fall := unit.InchesPerFoot(0.25)
	most := PipeStyle{
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

// Check errs where a file could not keep a pipe that is made so.
func (st PipeStyle) Check() error {
	p := st.pipe()
	p.ID, p.From, p.To, p.Slope = "p", "a", "b", st.Slope
	return site.Check(p)
}

// pipe is a pipe made so, without its ends and its fall.
func (st PipeStyle) pipe() network.Pipe {
	return network.Pipe{Size: st.Size, Material: st.Material, Class: st.Class, Deposit: st.Deposit, Severity: st.Severity}
}
