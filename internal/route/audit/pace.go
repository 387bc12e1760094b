package audit

import (
	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// seconds is the time to cover a length at a speed: nothing for no length, and
// at most what stands for never.
func seconds(l unit.Length, v unit.Speed) float64 {
	if l <= 0 {
		return 0
	}
	return min(float64(l)/float64(v), rig.Longest.Seconds())
}

// takes is the time of a duty: out and back over every pipe up to its far end,
// rounded pipe by pipe.
func (g *ground) takes(t *track, d *duty) rounded {
	var sum rounded
	for i, h := range t.hops[:d.far+1] {
		m := &g.pipes[h.pipe]
		row, worked := d.work[i]
		if !worked {
			sum = sum.plus(round(2 * seconds(m.length, g.site.Rig.Crew.Travel)))
			continue
		}
		s := g.worked(m.length, row, pulls(row, m.Pipe))
		if t.down {
			s *= 1 + g.site.Rig.Crew.Downstream
		}
		sum = sum.plus(round(s))
	}
	return sum
}

// worked is the time that one pass works a length of pipe, out and back.
func (g *ground) worked(l unit.Length, row site.PassRow, pulls int) float64 {
	crew := &g.site.Rig.Crew
	out := seconds(l, crew.Travel)
	if row.Strokes {
		// A stroke nets half of its length: every length is gone over twice
		// forward and once back.
		out = 2*seconds(l, crew.Forward) + seconds(l, crew.Back)
	}
	return out + float64(pulls)*seconds(l, row.Pull) + float64(pulls-1)*seconds(l, crew.Travel)
}

// opening is the time to open an access and to drag the hose there and back.
func (g *ground) opening(node *network.Node, lay unit.Length) rounded {
	minutes := g.site.Rig.Crew.Open
	if node.Access != nil && node.Access.OpenMinutes != 0 {
		minutes = node.Access.OpenMinutes
	}
	return round(60*minutes + 2*seconds(lay, g.site.Rig.Crew.Lay))
}

// tow is the time to tow the trailer between two places, in seconds.
func (g *ground) tow(from, to network.Point) float64 {
	return 60*g.site.Rig.Crew.Move + seconds(straight(from, to), g.site.Rig.Crew.TowSpeed)
}
