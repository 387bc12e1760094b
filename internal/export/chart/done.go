package chart

import (
	"linemap/internal/export/drawing"
	"linemap/internal/export/label"
	"linemap/internal/network"
	"linemap/internal/route"
)

// Done turns a map of a plan into one of the work done: what the runs of the
// plan cleaned has their ribbons, and what is left of the shortfalls is crossed
// out.
type Done struct {
	// Shares say how much of a pipe is clean; one that is not named is as the
	// plan has it.
	Shares map[network.PipeID]Shares
	// Why says of each shortfall why it is left and what would help.
	Why map[network.PipeID]string
}

// Shares are the parts of a pipe that are clean, as shares of its length from 0
// to 1: from its lower end up, and from its upper end down.
type Shares struct{ FromBelow, FromAbove float64 }

// wording is what the map says of its runs: the paper's name, the tables' heads
// and what the legend says of a ribbon.
type wording struct{ drawing, runs, cleans, left, more, run, ribbon string }

// words are those of the map in hand.
func (d *draft) words() wording {
	if d.done == nil {
		return wording{
			"Map of the drains and runs", "Runs in order", "cleans", "Not cleaned", "see the run sheet",
			"run, in order; its ribbon, in any colour, is what it cleans", "what one run cleans, in any colour",
		}
	}
	return wording{
		"Map of the drains as cleaned", "Runs made", "cleaned", "Left", "see the list before this map",
		"run made; its ribbon, in any colour, is what it cleaned", "what one run cleaned, in any colour",
	}
}

// cleanPart is what a run cleaned of the line of a pipe, drawn as the nozzle
// goes.
func (sd *storeyDraft) cleanPart(p int, way route.Direction, line []drawing.Point) []drawing.Point {
	if sd.done == nil {
		return line
	}
	s, named := sd.done.Shares[sd.graph.Net.Pipes[p].ID]
	if !named {
		return line
	}
	share := s.FromBelow
	if way == route.Downstream {
		share = s.FromAbove
	}
	return cutOut(line, 0, share)
}

// leftPart is what is left of the line of a pipe, drawn as the water flows.
func (sd *storeyDraft) leftPart(p int, line []drawing.Point) []drawing.Point {
	if sd.done == nil {
		return line
	}
	s := sd.done.Shares[sd.graph.Net.Pipes[p].ID]
	return cutOut(line, s.FromAbove, 1-s.FromBelow)
}

// cutOut is the part of a line between two shares of its length. What has no
// length stays whole, as a stack is.
func cutOut(line []drawing.Point, from, to float64) []drawing.Point {
	total := lengthOf(line)
	from, to = max(from, 0), min(to, 1)
	if total == 0 || from == 0 && to == 1 || from >= to {
		return line
	}
	start, _ := label.Along(line, from)
	end, _ := label.Along(line, to)
	out, at := []drawing.Point{start}, 0.0
	for i := 1; i < len(line); i++ {
		at += lengthOf(line[i-1 : i+1])
		if share := at / total; share > from && share < to {
			out = append(out, line[i])
		}
	}
	return append(out, end)
}
