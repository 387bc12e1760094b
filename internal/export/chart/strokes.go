package chart

import (
	"linemap/internal/export/drawing"
	"linemap/internal/network"
)

// PipePen is the pen that the map draws a pipe with, for papers that show the
// pipe in another way: its weight tells the size, its pattern the material.
func PipePen(p *network.Pipe) drawing.Pen { return pipePen(p) }
