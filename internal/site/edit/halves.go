package edit

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
)

// orient gives the pipe's ID to the downstream half of a cut. Forward says that
// the water goes from the near half into the far one. A run that went up the
// pipe goes to the end of its upper half now.
func (d *Draft) orient(c cut, forward bool) {
	if forward {
		near, _ := d.Pipe(c.near)
		far, _ := d.Pipe(c.far)
		near.ID, far.ID = far.ID, near.ID
		near.Label, far.Label = far.Label, near.Label
		for _, node := range []network.NodeID{near.From, c.node, far.To} {
			d.exchange(node, c.near, c.far)
		}
		d.SetPipe(near.Clone())
		d.SetPipe(far.Clone())
	}
	// Near has the pipe's ID, far the new one, whichever way they lie now.
	d.renameEnds(c.near, c.far, func(k site.RunKey) bool { return !k.Downstream })
}

// exchange names each of two pipes as the branch of a junction where it named
// the other.
func (d *Draft) exchange(node network.NodeID, a, b network.PipeID) {
	const none = "" // no pipe has it
	d.rehang(node, a, none)
	d.rehang(node, b, a)
	d.rehang(node, none, b)
}

// rehang names another pipe as the branch of a junction where it named one.
func (d *Draft) rehang(node network.NodeID, old, new network.PipeID) {
	n, ok := d.Node(node)
	if !ok || n.Junction == nil || !slices.Contains(n.Junction.Branches, old) {
		return
	}
	n = n.Clone()
	n.Junction.Branches[slices.Index(n.Junction.Branches, old)] = new
	d.SetNode(n)
}

// renameEnds gives the runs decided by hand that end with a pipe another last
// pipe, where they are such runs.
func (d *Draft) renameEnds(old, new network.PipeID, such func(site.RunKey) bool) {
	hand := d.site.ByHand.Clone()
	changed := false
	for _, list := range []*[]site.RunKey{&hand.Keep, &hand.Bar, &hand.Order} {
		var kept []site.RunKey
		for _, k := range *list {
			if k.End == old && such(k) {
				k.End, changed = new, true
			}
			if !slices.Contains(kept, k) {
				kept = append(kept, k)
			}
		}
		*list = kept
	}
	if changed {
		d.SetByHand(hand)
	}
}
