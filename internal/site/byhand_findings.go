package site

import (
	"fmt"
	"slices"
	"strings"

	"linemap/internal/network"
	"linemap/internal/rig"
)

// byHandFindings looks for decisions about runs that can no longer be heeded,
// as an edit of the drawing may leave them, and for those that contradict each
// other.
func (s *Site) byHandFindings() []network.Finding {
	var all []network.Finding
	for _, d := range []struct {
		done string
		runs []RunKey
	}{
		{"kept", s.ByHand.Keep},
		{"barred", s.ByHand.Bar},
		{"ordered", s.ByHand.Order},
	} {
		for _, key := range d.runs {
			if f, gone := s.runFinding(key); gone != "" {
				f.Gravity, f.Kind = network.Advice, "by_hand_gone"
				f.What = "A run " + d.done + " by hand no longer exists."
				f.Value, f.Cure = gone, "Free the run, or undo what took it away."
				all = append(all, f)
			}
		}
	}
	for _, key := range s.ByHand.Keep {
		if f, gone := s.runFinding(key); gone == "" && slices.Contains(s.ByHand.Bar, key) {
			f.Gravity, f.Kind = network.Warning, "by_hand_both"
			f.What = "A run is both kept and barred by hand."
			f.Cure = "Free the run, then keep it or bar it."
			all = append(all, f)
		}
	}
	return all
}

// runFinding starts a finding at a run, and says what of the run is gone.
func (s *Site) runFinding(key RunKey) (f network.Finding, gone string) {
	var missing []string
	miss := func(word, id string) string {
		missing = append(missing, fmt.Sprintf("%s %q", word, id))
		return word + " " + id
	}
	if find(s.Spots, func(v *Spot) bool { return v.ID == key.Spot }) == nil {
		miss("spot", string(key.Spot))
	}
	if find(s.Rig.Hoses, func(h *rig.Hose) bool { return h.ID == key.Hose }) == nil {
		miss("hose", key.Hose)
	}
	var from, to string
	access := find(s.Network.Nodes, func(n *network.Node) bool { return n.ID == key.Access && n.Access != nil })
	if access != nil {
		f.Node, from = access.ID, access.Name()
	} else {
		from = miss("access", string(key.Access))
	}
	end := find(s.Network.Pipes, func(p *network.Pipe) bool { return p.ID == key.End })
	if end != nil {
		to = end.Name()
	} else {
		to = miss("pipe", string(key.End))
	}
	if access == nil && end != nil {
		f.Pipe = end.ID
	}
	f.Place = fmt.Sprintf("run from %s to %s", from, to)
	return f, strings.Join(missing, ", ")
}
