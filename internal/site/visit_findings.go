package site

import (
	"fmt"
	"strings"

	"linemap/internal/network"
)

// visitFindings looks for pipe of past visits that is no longer on the drawing,
// so that the map as cleaned and the report do not show it.
func (s *Site) visitFindings() []network.Finding {
	there := make(map[network.PipeID]bool, len(s.Network.Pipes))
	for i := range s.Network.Pipes {
		there[s.Network.Pipes[i].ID] = true
	}
	const most = 5 // names in one finding
	var all []network.Finding
	for i := range s.Visits {
		var names []string
		gone := map[network.PipeID]bool{}
		for _, r := range s.Visits[i].Runs {
			for _, p := range r.Pipes {
				if there[p.Pipe] || gone[p.Pipe] {
					continue
				}
				if gone[p.Pipe] = true; len(gone) <= most {
					names = append(names, fmt.Sprintf("pipe %q", string(p.Pipe)))
				}
			}
		}
		if len(gone) == 0 {
			continue
		}
		value := strings.Join(names, ", ")
		if more := len(gone) - len(names); more > 0 {
			value += fmt.Sprintf(" and %d more", more)
		}
		all = append(all, network.Finding{
			Gravity: network.Advice, Kind: "visit_pipe_gone", Place: "visit of " + s.Visits[i].Date,
			What:  "The results of a visit tell of pipe that is no longer on the drawing.",
			Value: value,
			Cure:  "Nothing, where the drain was rebuilt or drawn anew; otherwise undo what took the pipe away.",
		})
	}
	return all
}
