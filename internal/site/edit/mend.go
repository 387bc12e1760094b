package edit

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// mending is what becomes of the nodes that a deletion touches.
type mending struct {
	*deletion
	legs map[network.NodeID][]network.PipeID
	// Nodes go whose pipes all went; joints are healed; where pipes cannot be
	// joined they are parted.
	alone        map[network.NodeID]bool
	joints, part []network.NodeID
	// inverts were measured at nodes in line that are deleted.
	inverts map[network.NodeID]*unit.Length
	// fittings are the joints among what is deleted: either their pipes become
	// one, or they are parted.
	fittings []network.NodeID
}

// sort finds out what becomes of a node.
func (m *mending) sort(id network.NodeID) {
	n, _ := m.Node(id)
	legs := len(m.legs[id])
	switch {
	case !m.gone[NodeRef(id)]:
		m.prune(n)
		m.joints = append(m.joints, id)
	case legs == 0:
		m.alone[id] = true
	case n.Kind == network.KindCap && legs == 1:
		// It closes a pipe that stays.
	case joint(n.Kind) && legs > 2:
		m.part = append(m.part, id)
	default:
		if joint(n.Kind) {
			m.fittings = append(m.fittings, id)
		}
		bend := network.Node{ID: id, Kind: network.KindBend, At: n.At, Level: n.Level, Invert: n.Invert}
		if legs == 2 {
			// A height in line goes with its node, where the run becomes one pipe.
			m.inverts[id] = n.Invert
			bend.Invert = nil
		}
		m.SetNode(bend)
		m.joints = append(m.joints, id)
	}
}

// prune takes the pipes that are gone out of a junction.
func (m *mending) prune(n network.Node) {
	isGone := func(id network.PipeID) bool { return m.gone[PipeRef(id)] }
	if n.Junction == nil || !slices.ContainsFunc(n.Junction.Branches, isGone) {
		return
	}
	n = n.Clone()
	n.Junction.Branches = slices.DeleteFunc(n.Junction.Branches, isGone)
	m.SetNode(n)
}

func (m *mending) do() error {
	if len(m.alone) > 0 {
		m.RemoveNodes(func(n *network.Node) bool { return m.alone[n.ID] })
	}
	if err := m.heal(m.joinable()...); err != nil {
		return err
	}
	for _, id := range m.joints {
		if z := m.inverts[id]; z != nil {
			if n, ok := m.Node(id); ok {
				n.Invert = z
				m.SetNode(n)
			}
		}
	}
	for _, id := range m.fittings {
		if n, ok := m.Node(id); ok && n.Kind != network.KindCap {
			m.part = append(m.part, id)
		}
	}
	m.apart()
	return nil
}

// joinable is the joints without those of three pipes or more for which there is
// no fitting. Such a one is parted where it is deleted; another stays as it is,
// for the findings to tell of: it must not keep anyone from deleting.
func (m *mending) joinable() []network.NodeID {
	var flow *network.Graph
	return slices.DeleteFunc(slices.Clone(m.joints), func(id network.NodeID) bool {
		n, _ := m.Node(id)
		if !joint(n.Kind) || len(m.legs[id]) < 3 {
			return false
		}
		if flow == nil {
			flow = m.trace()
		}
		i, _ := flow.NodeIndex(id)
		if flow.Sound(i) {
			return false
		}
		_, err := flow.Suit(i)
		if err != nil && m.gone[NodeRef(id)] {
			m.part = append(m.part, id)
		}
		return err != nil
	})
}

// apart gives every pipe at a joint that cannot be one cap of its own.
func (m *mending) apart() {
	if len(m.part) == 0 {
		return
	}
	legs := m.legsOf(m.part...)
	for _, id := range m.part {
		n, _ := m.Node(id)
		end := network.Node{ID: id, Kind: network.KindCap, At: n.At, Level: n.Level, Invert: n.Invert}
		m.SetNode(end)
		for _, leg := range legs[id][1:] {
			p, _ := m.Pipe(leg)
			end.ID = ""
			if n.Invert != nil {
				z := *n.Invert
				end.Invert = &z
			}
			if p.From == id {
				p.From = m.AddNode(end)
			} else {
				p.To = m.AddNode(end)
			}
			m.SetPipe(p.Clone())
		}
	}
}
