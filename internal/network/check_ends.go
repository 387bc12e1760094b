package network

import (
	"fmt"

	"linemap/internal/unit"
)

// endsOf is the number of pipes that meet at a node of each kind, least and
// most; 0 for no limit.
func endsOf(n *Node) (least, most int) {
	switch n.Kind {
	case KindBend, KindTrap, KindReducer, KindBackwater:
		return 2, 2
	case KindFixture, KindCap:
		return 1, 1
	case KindJunction:
		if n.Junction != nil {
			if b := branchesOf[n.Junction.Kind]; b > 0 {
				return b + 2, b + 2
			}
		}
		return 3, 4
	case KindAccess:
		if n.Access != nil {
			switch n.Access.Kind {
			case PulledFixture, RoofVent:
				return 1, 1
			case OneWayCleanout, TwoWayCleanout:
				return 1, 2
			}
		}
	}
	return 1, 0
}

// ends tells of a node at which too few or too many pipes meet.
func (c *checker) ends(node int) {
	n := &c.g.Net.Nodes[node]
	legs := len(c.g.Above[node]) + len(c.g.Below[node])
	least, most := endsOf(n)
	asked := fmt.Sprintf("%d", least)
	if most > least {
		asked = fmt.Sprintf("%d to %d", least, most)
	}
	f := Finding{Value: unit.Count(legs, "pipe"), Limit: asked, Cure: "Draw the missing pipe, or remove it."}
	switch {
	case legs == 0:
		f.What = "No pipe is joined to this " + n.Word() + "."
		f.Limit = ""
		c.add(c.g.atNode(node, Error, "unconnected"), f)
	case legs < least:
		f.What = fmt.Sprintf("The %s has an open end: %s where %s meet.", n.Word(), unit.Count(legs, "pipe"), asked)
		c.add(c.g.atNode(node, Error, "unconnected"), f)
	case most > 0 && legs > most:
		f.What = fmt.Sprintf("%s meet at the %s, which joins %s.", unit.Count(legs, "pipe"), n.Word(), asked)
		f.Cure = "Put the fitting there that joins them, or part the pipes."
		c.add(c.g.atNode(node, excess(n), "too_many_pipes"), f)
	case n.Kind == KindOutlet && len(c.g.Below[node]) > 0:
		f.What = "A pipe flows out of the outlet."
		f.Value, f.Limit = "", ""
		f.Cure = "The outlet is where the drain leaves the job: end the line there."
		c.add(c.g.atNode(node, Warning, "outlet_in_line"), f)
	}
}

// excess is how bad it is that too many pipes meet: bad where the hose's way
// depends on the fitting.
func excess(n *Node) Gravity {
	switch n.Kind {
	case KindFixture, KindCap, KindAccess:
		return Warning
	}
	return Error
}

// data tells of a node that lacks what its kind calls for.
func (c *checker) data(node int) {
	n := &c.g.Net.Nodes[node]
	switch {
	case n.Kind == KindAccess && n.Access == nil:
		c.add(c.g.atNode(node, Error, "no_access_data"), Finding{
			What: "Nothing is said of this access: neither its kind nor its opening.",
			Cure: "Choose what kind of access it is.",
		})
	case n.Kind == KindAccess && n.Access.Kind == OneWayCleanout &&
		n.Access.Facing != FacesUpstream && n.Access.Facing != FacesDownstream:
		c.add(c.g.atNode(node, Error, "no_facing"), Finding{
			What: "The one-way cleanout is not said to face upstream or downstream.",
			Cure: "Look which way its sweep leads, and enter it.",
		})
	case n.Kind == KindJunction:
		c.junctionData(node, n)
	}
}

// junctionData tells of a junction whose branches contradict its legs.
func (c *checker) junctionData(node int, n *Node) {
	least, most := endsOf(n)
	legs := len(c.g.Above[node]) + len(c.g.Below[node])
	if _, ok := c.g.fitting(node); ok || legs < least || legs > most {
		return // sound, or told of by ends
	}
	f := Finding{Cure: "Choose the fitting and which of its legs is the branch. Until then turns are taken as drawn."}
	switch j := n.Junction; {
	case j == nil || branchesOf[j.Kind] == 0:
		f.What = "It is not said which fitting joins the pipes here."
	case len(j.Branches) != branchesOf[j.Kind]:
		f.What = fmt.Sprintf("A %s has %s, and %d are named.", n.Word(), branches(branchesOf[j.Kind]), len(j.Branches))
		f.Value, f.Limit = fmt.Sprintf("%d", len(j.Branches)), fmt.Sprintf("%d", branchesOf[j.Kind])
	default:
		f.What = "The legs named as branches do not fit the flow: a branch must be a pipe that ends here, and the run must lead to the outlet."
	}
	c.add(c.g.atNode(node, Error, "junction_branches"), f)
}

// branches counts branches: "1 branch", "2 branches".
func branches(n int) string {
	if n == 1 {
		return "1 branch"
	}
	return fmt.Sprintf("%d branches", n)
}
