package route

import (
	"context"
	"slices"

	"linemap/internal/unit"
)

// explainer finds why targets are not cleaned, and what would cure it.
type explainer struct {
	*catalogue
	ctx      context.Context
	missing  []bool       // by pipe
	cleanout map[int]gain // what a new cleanout on a pipe gains
	cutIn    []cutIn      // what a new cleanout takes, by pipe
	at       map[int]int  // the access of a node
	farthest unit.Length  // the longest way that is looked at
	longer   map[hoseBy]gain
	work     int           // places walked for longer hoses so far
	bench    []modelAccess // the accesses, to try a change on
}

// newExplainer explains the shortfalls of a catalogue.
func newExplainer(c *catalogue) *explainer {
	e := &explainer{
		catalogue: c, missing: make([]bool, len(c.pipes)), cleanout: map[int]gain{},
		at: make(map[int]int, len(c.access)), longer: map[hoseBy]gain{}, bench: slices.Clone(c.access),
		cutIn: c.cutIns(),
	}
	for a := range c.access {
		e.at[c.access[a].node] = a
	}
	for i := range c.site.Rig.Hoses {
		e.farthest = max(e.farthest, c.site.Rig.Hoses[i].Length)
	}
	if prices := &c.tables.Cures; prices.HosePerMetre > 0 {
		// More hose than this is dearer than any cleanout, and than clearing by hand.
		dearest := prices.ClearByHand
		for p := range e.cutIn {
			dearest = max(dearest, e.cutIn[p].price)
		}
		e.farthest += unit.Length(dearest / prices.HosePerMetre)
	}
	return e
}

// explain says of every target that is not cleaned why. dry lists those that
// only the lack of water kept from being cleaned, lacking how much it takes. h
// tells of those that only decisions made by hand keep from being cleaned; nil
// without any.
func (c *catalogue) explain(ctx context.Context, dry []int, lacking unit.Volume, h *hand) []Shortfall {
	e := newExplainer(c)
	e.ctx = ctx
	for p := range c.pipes {
		e.missing[p] = c.pipes[p].target && !c.reachable[p] && !(h != nil && h.c.reachable[p])
	}
	thirsty := make([]bool, len(c.pipes))
	for _, p := range dry {
		thirsty[p] = true
	}
	var out []Shortfall
	for p := range c.pipes {
		s := c.shortfall(p)
		switch {
		case thirsty[p]:
			s.Reason, s.ByWater, s.Cure = NoWater, lacking, Cure{Kind: MoreWater}
		case e.missing[p] && len(c.spots) == 0:
			s.Reason, s.Cure = NoSpot, Cure{Kind: OtherSpot}
		case e.missing[p] && len(c.site.Rig.Hoses) == 0:
			s.Reason, s.Cure = NoHose, Cure{Kind: SmallerHose}
		case e.missing[p]:
			e.explainOne(p, &s)
		case h != nil && h.lost[p]:
			h.explain(p, &s, !c.hurried(ctx))
		default:
			continue
		}
		out = append(out, s)
	}
	if c.hurried(ctx) {
		for i := range out {
			out[i].Cure = out[i].Cure.untried()
		}
	}
	return out
}

// mostInHaste is up to how many pipes a site has of which all is told although
// planning was cancelled.
const mostInHaste = 400

// hurried tells whether planning was cancelled and the site is so large that all
// that can be done without is left out.
func (m *model) hurried(ctx context.Context) bool {
	return len(m.pipes) > mostInHaste && ctx.Err() != nil
}

// untried is a cure as it is told where there was no time to try any.
func (c Cure) untried() Cure {
	switch c.Kind {
	case FreeRun, OwnOrder:
		return Cure{Kind: c.Kind}
	}
	return Cure{Kind: NotSought}
}

// explainOne gives the reason of the attempt that the cheapest cure mends; a
// new cleanout mends none, so then of the attempt that came nearest.
func (e *explainer) explainOne(p int, s *Shortfall) {
	tries := e.attempts(p)
	cure := remedy{Cure: Cure{Kind: NotSought}, attempt: -1}
	if !e.hurried(e.ctx) {
		cure = e.cheapestCure(p, tries)
	}
	s.Cure, s.Reason = cure.Cure, NoAccess
	nearest := cure.attempt
	for i := range tries {
		if cure.attempt < 0 && (nearest < 0 || tries[i].better(&tries[nearest])) {
			nearest = i
		}
	}
	if nearest >= 0 {
		e.reasonOf(&tries[nearest], s)
	}
}

// tell writes down from which access and with which hose an attempt is made.
func (e *explainer) tell(t *attempt, s *Shortfall) {
	access, hose := e.access[t.way.access].node, &e.site.Rig.Hoses[t.way.hose]
	s.Access, s.AccessName = e.site.Network.Nodes[access].ID, e.g.NodeName(access)
	s.Hose, s.HoseName = hose.ID, hose.Name
}

// shortfall begins the shortfall of a pipe.
func (m *model) shortfall(p int) Shortfall {
	pipe := &m.site.Network.Pipes[p]
	return Shortfall{Pipe: pipe.ID, Name: m.g.PipeName(p), Size: pipe.Size, Length: m.pipes[p].length}
}

// reasonOf writes down the first rule that an attempt broke.
func (e *explainer) reasonOf(t *attempt, s *Shortfall) {
	if t.works() {
		if over, ok := e.overTank(t); ok {
			s.Reason, s.ByWater = NoWater, over
			return
		}
	}
	e.tell(t, s)
	if t.works() {
		s.Reason = NoNozzle
		return
	}
	if len(t.broken) == 0 {
		s.Reason, s.ByLength = OverReel, t.over
		s.Spot, s.SpotName = e.spots[t.spot].spot.ID, e.spots[t.spot].spot.Label
		return
	}
	b := t.broken[0]
	s.Reason, s.What = b.reason, b.what
	s.ByBends, s.ByForce, s.ByAngle = b.bends, b.force, b.angle
	s.AtPipe, s.AtName = e.site.Network.Pipes[b.pipe].ID, e.g.PipeName(b.pipe)
	switch b.reason {
	case Blocked, BranchTurn, TurnTooSharp:
		if b.node >= 0 {
			s.AtNode, s.AtName = e.site.Network.Nodes[b.node].ID, e.g.NodeName(b.node)
		}
	}
}
