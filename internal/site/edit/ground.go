package edit

import (
	"errors"
	"fmt"
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// PlaceSpot places a spot for the trailer, on even ground and out of traffic,
// with the next free label.
func PlaceSpot(s *site.Site, at network.Point) (*Edit, error) {
	return Make("place spot", s, func(d *Draft) error {
		if err := d.onPlan("the spot", at); err != nil {
			return err
		}
		taken := labels(s.Spots, func(v *site.Spot) string { return v.Label })
		v := site.Spot{Label: firstFree("Spot %d", 1, taken), At: at, Traffic: site.NoTraffic}
		d.Made(SpotRef(d.AddSpot(v)))
		return nil
	})
}

// usualFlow is what a water point gives until it is measured (common practice):
// a hydrant through a meter, a garden tap, the pump of a tanker.
var usualFlow = map[site.WaterKind]unit.Flow{
	site.Hydrant: unit.GallonsPerMinute(50),
	site.HoseBib: unit.GallonsPerMinute(8),
	site.Tanker:  unit.GallonsPerMinute(25),
}

// PlaceWater places a water point with the next free label of the trade's
// letters and the flow that is usual for its kind.
func PlaceWater(s *site.Site, at network.Point, kind site.WaterKind) (*Edit, error) {
	return Make("place "+waterWord(kind), s, func(d *Draft) error {
		if err := d.onPlan("the water point", at); err != nil {
			return err
		}
		taken := labels(s.Water, func(v *site.WaterPoint) string { return v.Label })
		v := site.WaterPoint{Label: firstFree(kind.Letters()+"-%d", 1, taken), Kind: kind, At: at, Flow: usualFlow[kind]}
		v.ID = d.AddWater(v)
		if err := site.Check(v); err != nil {
			return fmt.Errorf("the new water point: %w", err)
		}
		d.Made(WaterRef(v.ID))
		return nil
	})
}

// PlaceNote places a remark on the plan of a level.
func PlaceNote(s *site.Site, at network.Point, level, text string) (*Edit, error) {
	return Make("place note", s, func(d *Draft) error {
		if err := d.onPlan("the note", at); err != nil {
			return err
		}
		if err := levelThere(s, level); err != nil {
			return err
		}
		if text == "" {
			return errors.New("the note says nothing: type its text")
		}
		v := site.Note{At: at, Level: level, Text: text}
		v.ID = d.AddNote(v)
		if err := site.Check(v); err != nil {
			return fmt.Errorf("the new note: %w", err)
		}
		d.Made(NoteRef(v.ID))
		return nil
	})
}

// PlaceUnderlay lays a floor plan under its level, on top of the others.
func PlaceUnderlay(s *site.Site, v site.Underlay) (*Edit, error) {
	return Make("lay a floor plan", s, func(d *Draft) error {
		if err := levelThere(s, v.Level); err != nil {
			return err
		}
		v.ID = d.AddUnderlay(v)
		if err := site.Check(v); err != nil {
			return fmt.Errorf("the floor plan: %w", err)
		}
		d.Made(UnderlayRef(v.ID))
		return nil
	})
}

// PlaceLay draws the way of the hose on the ground from a spot to an access or
// a water point, in the place of an older one. Without corners the hose lies
// straight, and the older way goes.
func PlaceLay(s *site.Site, spot site.SpotID, to Ref, via []network.Point) (*Edit, error) {
	l := site.Lay{Spot: spot, Via: slices.Clone(via)}
	switch to.Kind {
	case Node:
		l.Access = network.NodeID(to.ID)
	case Water:
		l.Water = site.WaterID(to.ID)
	default:
		return nil, fmt.Errorf("hose is laid to an access or a water point, not to a %s", to.Kind)
	}
	name := "draw hose lay"
	if len(via) == 0 {
		name = "lay hose straight"
	}
	return Make(name, s, func(d *Draft) error {
		if err := d.layable(&l); err != nil {
			return err
		}
		old := slices.IndexFunc(s.Lays, func(o site.Lay) bool { return LayRef(&o) == LayRef(&l) })
		switch {
		case len(via) > 0 && old >= 0:
			d.SetLay(old, l)
		case len(via) > 0:
			d.AddLay(l)
		case old >= 0:
			d.RemoveLays(func(o *site.Lay) bool { return LayRef(o) == LayRef(&l) })
			return nil
		default:
			return nil
		}
		d.Made(LayRef(&l))
		return nil
	})
}

// layable errs where a lay cannot be: its ends are not there, or it leaves the
// plan.
func (d *Draft) layable(l *site.Lay) error {
	for _, at := range l.Via {
		if err := d.onPlan("the corner", at); err != nil {
			return err
		}
	}
	if !slices.ContainsFunc(d.site.Spots, func(v site.Spot) bool { return v.ID == l.Spot }) {
		return fmt.Errorf("there is no spot %q on the site", l.Spot)
	}
	if l.Water != "" {
		if !slices.ContainsFunc(d.site.Water, func(v site.WaterPoint) bool { return v.ID == l.Water }) {
			return fmt.Errorf("there is no water point %q on the site", l.Water)
		}
	} else if n, ok := d.Node(l.Access); !ok {
		return noNode(l.Access)
	} else if n.Kind != network.KindAccess {
		return fmt.Errorf("%s is %s; hose is laid to an access or a water point", n.Name(), a(&n))
	}
	if err := site.Check(*l); err != nil {
		return fmt.Errorf("the lay: %w", err)
	}
	return nil
}
