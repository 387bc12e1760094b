package edit

import (
	"linemap/internal/network"
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

// Anchor is where something drawn is joined: to a node, to a pipe at a place of
// it, or, with neither, to nothing.
type Anchor struct {
	At    network.Point
	Level string
	Node  network.NodeID
	Pipe  network.PipeID
}
