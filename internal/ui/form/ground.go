package form

import (
	"strings"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// spotFields are what can be said of a spot.
func spotFields() []field[site.Spot] {
	type spot = site.Spot
	return append([]field[spot]{
		text("Label", "label", func(v *spot) *string { return &v.Label }),
		orElse(keys("Traffic", "traffic", func(v *spot) *site.Traffic { return &v.Traffic },
			func(_ *desk.Desk, t site.Traffic) string {
				switch t {
				case site.ConedTraffic:
					return "Coned off"
				case site.LiveTraffic:
					return "Live: not used"
				}
				return "None"
			}), func(*desk.Desk) string { return "None" }),
		tick("Uneven ground", func(v *spot) *bool { return &v.Uneven }),
		number("Height", "elevation", &unit.Lengths, func(v *spot) *unit.Length { return &v.Elevation }),
		factOf("Water", func(d *desk.Desk, v *spot) string {
			flow, w := d.Site().Inflow(v)
			if w == nil {
				return "none within the supply hose"
			}
			u := d.Units()
			return w.Label + ", " + u.Flow(flow) + ", " + u.Length(d.Site().SupplyLength(v, w)) + " of supply hose"
		}),
	}, append(placeFields(func(v *spot) *network.Point { return &v.At }),
		note("Note", "note", func(v *spot) *string { return &v.Note }))...)
}

// waterFields are what can be said of a water point.
func waterFields() []field[site.WaterPoint] {
	type water = site.WaterPoint
	return append([]field[water]{
		text("Label", "label", func(v *water) *string { return &v.Label }),
		keys("Kind", "kind", func(v *water) *site.WaterKind { return &v.Kind }, nil),
		number("Gives", "flow", &unit.Flows, func(v *water) *unit.Flow { return &v.Flow }).as("flow"),
		factOf("Fills with", func(d *desk.Desk, v *water) string {
			if in := d.Site().FillFlow(v); in < v.Flow {
				return d.Units().Flow(in) + ", all that the rig's fill lets in"
			}
			return ""
		}),
	}, append(placeFields(func(v *water) *network.Point { return &v.At }),
		note("Note", "note", func(v *water) *string { return &v.Note }))...)
}

// layFields are what can be said of a lay.
func layFields() []field[site.Lay] {
	type lay = site.Lay
	return []field[lay]{
		factOf("From", func(d *desk.Desk, l *lay) string { return spotNamed(d, l.Spot) }),
		factOf("To", func(d *desk.Desk, l *lay) string { return layEnd(d, l) }),
		optional("Measured", "length", &unit.Lengths, "length as drawn", func(l *lay) **unit.Length { return &l.Length }).as("length"),
		factOf("Length", func(d *desk.Desk, l *lay) string {
			if l.Length != nil {
				return ""
			}
			return d.Units().Footage(network.WayLength(edit.LayWay(d.Site(), l))) + ", as drawn"
		}),
	}
}

func spotNamed(d *desk.Desk, id site.SpotID) string {
	for i := range d.Site().Spots {
		if v := &d.Site().Spots[i]; v.ID == id && v.Label != "" {
			return v.Label
		}
	}
	return "spot " + string(id)
}

func layEnd(d *desk.Desk, l *site.Lay) string {
	s := d.Site()
	for i := range s.Network.Nodes {
		if n := &s.Network.Nodes[i]; l.Access != "" && n.ID == l.Access {
			return n.Name()
		}
	}
	for i := range s.Water {
		if w := &s.Water[i]; l.Water != "" && w.ID == l.Water && w.Label != "" {
			return w.Label
		}
	}
	return string(l.Access) + string(l.Water)
}

// noteFields are what can be said of a note.
func noteFields() []field[site.Note] {
	type remark = site.Note
	return append([]field[remark]{
		note("Text", "text", func(v *remark) *string { return &v.Text }),
		levelField(func(v *remark) *string { return &v.Level }),
	}, placeFields(func(v *remark) *network.Point { return &v.At })...)
}

// underlayFields are what can be said of an underlay.
func underlayFields() []field[site.Underlay] {
	type picture = site.Underlay
	return append([]field[picture]{
		text("Label", "label", func(v *picture) *string { return &v.Label }),
		levelField(func(v *picture) *string { return &v.Level }),
		slider("Faded", "dim", func(v *picture) *float64 { return &v.Dim }),
		tick("Locked", func(v *picture) *bool { return &v.Locked }),
		tick("Hidden", func(v *picture) *bool { return &v.Hidden }),
		number("One dot is", "scale", &unit.Bores, func(v *picture) *unit.Length { return &v.Scale }).as("scale"),
		number("Turned", "turn", &unit.Angles, func(v *picture) *unit.Angle { return &v.Turn }).as("turn"),
		factOf("Kept", func(_ *desk.Desk, v *picture) string {
			if v.File != "" {
				return "beside the site file: " + v.File
			}
			return "in the site file, " + megabytes(len(v.Data))
		}),
	}, placeFields(func(v *picture) *network.Point { return &v.At })...)
}

func waterHeading(w *site.WaterPoint) string {
	return headed(export.Capital(export.Word(w.Kind)), w.Label)
}

// headed names a thing at the head of the card: "Spot: rear lane".
func headed(word, label string) string {
	switch {
	case label == "":
		return word
	case strings.Contains(strings.ToLower(label), strings.ToLower(word)):
		return export.Capital(label)
	}
	return word + ": " + label
}
