package site

import (
	"slices"
	"strings"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// AreaID names an area within one site.
type AreaID string

// AreaKind tells what an area of the ground is for.
type AreaKind string

// The kinds of area.
const (
	Stand     AreaKind = "stand"      // where the trailer may stand
	KeepClear AreaKind = "keep_clear" // where nothing may stand or lie
	Walkway   AreaKind = "walkway"    // where people walk
)

// AreaKinds lists the kinds of area.
func AreaKinds() []AreaKind { return []AreaKind{Stand, KeepClear, Walkway} }

// Word is what a kind of area is called.
func (k AreaKind) Word() string {
	switch k {
	case Stand:
		return "stand area"
	case KeepClear:
		return "keep-clear area"
	}
	return string(k)
}

// Area is a part of the ground, within a line that closes by itself. It holds
// for the whole site, as spots do.
type Area struct {
	ID      AreaID          `json:"id"`
	Label   string          `json:"label"`
	Kind    AreaKind        `json:"kind"`
	Outline []network.Point `json:"outline"`
	Note    string          `json:"note,omitzero"`
}

// Clone returns a copy that shares nothing with a.
func (a Area) Clone() Area {
	a.Outline = slices.Clone(a.Outline)
	return a
}

// Name names an area for a reader.
func (a *Area) Name() string {
	if a.Label != "" {
		return a.Label
	}
	return a.Kind.Word() + " " + string(a.ID)
}

// Called names an area together with what it is: "walkway East path", and
// "East walkway" where its label says so itself.
func (a *Area) Called() string {
	if word := a.Kind.Word(); a.Label != "" && !strings.Contains(strings.ToLower(a.Label), a.Kind.short()) {
		return word + " " + a.Label
	}
	return a.Name()
}

// short is the part of the word for a kind that a label is likely to have.
func (k AreaKind) short() string {
	if k == KeepClear {
		return "clear"
	}
	return string(k)
}

// Contains reports whether a place lies in the area. Its edge counts. Where the
// outline crosses itself, a place is inside where a line from it to afar passes
// the outline an odd number of times.
func (a *Area) Contains(p network.Point) bool {
	if len(a.Outline) == 0 {
		return false
	}
	inside, to := false, a.Outline[len(a.Outline)-1]
	below, above := p.Y-hair, p.Y+hair
	for _, next := range a.Outline {
		from := to
		to = next
		if from.Y < below && to.Y < below || from.Y > above && to.Y > above {
			continue // most sides, and this is asked often
		}
		if p.Distance(nearestOn(p, from, to)) <= hair {
			return true
		}
		if (from.Y > p.Y) != (to.Y > p.Y) && p.X < from.X+(p.Y-from.Y)/(to.Y-from.Y)*(to.X-from.X) {
			inside = !inside
		}
	}
	return inside
}

// Crosses returns where a way on the plan lies in the area: the middle of each
// stretch of it there, in order. A way that only touches the edge or a corner
// does not cross.
func (a *Area) Crosses(path []network.Point) []network.Point {
	var all []network.Point
	low, high := network.Bounds(a.Outline)
	var stretch []network.Point // of the way, inside so far
	end := func() {
		if run(stretch) > touching {
			all = append(all, halfway(stretch))
		}
		stretch = nil
	}
	for i := 1; i < len(path); i++ {
		from, to := path[i-1], path[i]
		if apart(low, high, from, to) {
			end()
			continue
		}
		parts := a.cuts(from, to)
		for k := 1; k < len(parts); k++ {
			if !a.Contains(between(from, to, (parts[k-1]+parts[k])/2)) {
				end()
				continue
			}
			if stretch == nil {
				stretch = append(stretch, between(from, to, parts[k-1]))
			}
			stretch = append(stretch, between(from, to, parts[k]))
		}
	}
	end()
	return all
}

// touching is the longest stretch that counts as a touch of the edge.
const touching = unit.Length(0.01)

// AreaOf returns how large the ground within an outline is. It means nothing
// for an outline that crosses itself.
func AreaOf(outline []network.Point) unit.Area {
	if len(outline) == 0 {
		return 0
	}
	// Seen from the first corner, so that a far origin costs no digits.
	twice, from := 0.0, outline[0]
	for i := 2; i < len(outline); i++ {
		a, b := outline[i-1], outline[i]
		twice += (a.X-from.X).Metres()*(b.Y-from.Y).Metres() - (b.X-from.X).Metres()*(a.Y-from.Y).Metres()
	}
	return unit.Area(max(twice, -twice) / 2)
}
