package edit

import (
	"bytes"
	"errors"
	"fmt"

	"linemap/internal/network"
	"linemap/internal/site"
)

// shape is what Change has to know of a kind of thing. Settle puts in order
// what follows from a change, and says what must not be. Checked is the value
// that stands for v before the schema, v itself where it is nil.
type shape[T any] struct {
	ref     func(*T) Ref
	name    func(*T) string
	clone   func(T) T
	settle  func(d *Draft, was, v *T) error
	checked func(was, v T) T
}

func asIs[T any](v T) T { return v }

func free[T any](*Draft, *T, *T) error { return nil }

// nodeShape notes accesses that are none any more.
func nodeShape(lost map[Ref]bool) shape[network.Node] {
	return shape[network.Node]{
		ref: func(n *network.Node) Ref { return NodeRef(n.ID) }, name: (*network.Node).Name, clone: network.Node.Clone,
		settle: func(d *Draft, was, n *network.Node) error {
			if was.Kind == network.KindAccess && n.Kind != network.KindAccess {
				lost[NodeRef(n.ID)] = true
			}
			return d.settleNode(n)
		},
	}
}

var (
	pipeShape = shape[network.Pipe]{
		ref: func(p *network.Pipe) Ref { return PipeRef(p.ID) }, name: (*network.Pipe).Name, clone: network.Pipe.Clone,
		settle: func(_ *Draft, was, p *network.Pipe) error {
			if p.From != was.From || p.To != was.To {
				return errors.New("what it is joined to and its ID are not changed like this")
			}
			return nil
		},
	}
	spotShape = shape[site.Spot]{
		ref: func(v *site.Spot) Ref { return SpotRef(v.ID) }, name: spotName, clone: asIs[site.Spot], settle: free[site.Spot],
	}
	waterShape = shape[site.WaterPoint]{
		ref: func(v *site.WaterPoint) Ref { return WaterRef(v.ID) }, name: waterName, clone: asIs[site.WaterPoint], settle: free[site.WaterPoint],
	}
	layShape = shape[site.Lay]{
		ref: LayRef, name: func(*site.Lay) string { return layName() }, clone: site.Lay.Clone, settle: free[site.Lay],
	}
	areaShape = shape[site.Area]{
		ref: func(v *site.Area) Ref { return AreaRef(v.ID) }, name: (*site.Area).Name, clone: site.Area.Clone, settle: free[site.Area],
	}
	noteShape = shape[site.Note]{
		ref: func(v *site.Note) Ref { return NoteRef(v.ID) }, name: noteName, clone: asIs[site.Note],
		settle: func(d *Draft, _, v *site.Note) error { return levelThere(d.site, v.Level) },
	}
	underlayShape = shape[site.Underlay]{
		ref: func(v *site.Underlay) Ref { return UnderlayRef(v.ID) }, name: underlayName, clone: asIs[site.Underlay],
		settle:  func(d *Draft, _, v *site.Underlay) error { return levelThere(d.site, v.Level) },
		checked: withoutPicture,
	}
)

// settleNode drops the figures of what the node is no more, and looks whether
// its level and its branches are there.
func (d *Draft) settleNode(n *network.Node) error {
	if n.Kind != network.KindAccess {
		n.Access = nil
	}
	if n.Kind != network.KindJunction {
		n.Junction = nil
	}
	if err := levelThere(d.site, n.Level); err != nil || n.Junction == nil {
		return err
	}
	for _, id := range n.Junction.Branches {
		if p, ok := d.Pipe(id); !ok || p.From != n.ID && p.To != n.ID {
			return fmt.Errorf("its branch %q must be a pipe that ends at it", id)
		}
	}
	return nil
}

// withoutPicture spares checking megabytes that are as they were.
func withoutPicture(was, v site.Underlay) site.Underlay {
	if len(v.Data) > 0 && bytes.Equal(v.Data, was.Data) {
		v.Data = v.Data[:1]
	}
	return v
}
