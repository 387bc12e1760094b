package site

import "linemap/internal/network"

// MainLevel is the level that a site is looked at first: the one with the
// outlet, else the first; "" on a site without levels.
func (s *Site) MainLevel() string {
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
