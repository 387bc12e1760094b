package edit

import (
	"errors"
	"fmt"
	"strings"

	"linemap/internal/site"
	"linemap/internal/unit"
)

var errNothing = errors.New("nothing is selected")

// called names a step that does something to a selection: "move cleanout",
// "move 3 things". It errs where nothing of the selection is on the site.
func called(verb string, s *site.Site, sel Selection) (string, error) {
	n, word := 0, ""
	found := func(r Ref, what string) {
		if sel.Has(r) {
			n, word = n+1, what
		}
	}
	for i := range s.Network.Nodes {
		found(NodeRef(s.Network.Nodes[i].ID), s.Network.Nodes[i].Word())
	}
	for i := range s.Network.Pipes {
		found(PipeRef(s.Network.Pipes[i].ID), "pipe")
	}
	for i := range s.Spots {
		found(SpotRef(s.Spots[i].ID), "spot")
	}
	for i := range s.Water {
		found(WaterRef(s.Water[i].ID), waterWord(s.Water[i].Kind))
	}
	for i := range s.Lays {
		found(LayRef(&s.Lays[i]), "lay")
	}
	for i := range s.Areas {
		found(AreaRef(s.Areas[i].ID), s.Areas[i].Kind.Word())
	}
	for i := range s.Notes {
		found(NoteRef(s.Notes[i].ID), "note")
	}
	for i := range s.Underlays {
		found(UnderlayRef(s.Underlays[i].ID), "floor plan")
	}
	switch n {
	case 0:
		return "", errNothing
	case 1:
		return verb + " " + word, nil
	}
	return verb + " " + unit.Count(n, "thing"), nil
}

func waterWord(k site.WaterKind) string { return strings.ReplaceAll(string(k), "_", " ") }

// unlocked is a selection without its locked underlays. It errs where nothing
// else was selected.
func unlocked(s *site.Site, sel Selection) (Selection, error) {
	locked := map[Ref]string{}
	for i := range s.Underlays {
		if u := &s.Underlays[i]; u.Locked && sel.Has(UnderlayRef(u.ID)) {
			locked[UnderlayRef(u.ID)] = underlayName(u)
		}
	}
	if len(locked) == 0 {
		return sel, nil
	}
	rest := sel.Keep(func(r Ref) bool { return locked[r] == "" })
	if rest.Len() > 0 {
		return rest, nil
	}
	if len(locked) > 1 {
		return rest, fmt.Errorf("all %d floor plans selected are locked: unlock them first", len(locked))
	}
	for _, name := range locked {
		return rest, fmt.Errorf("%s is locked: unlock it first", name)
	}
	return rest, nil
}

// The names of things for a reader, as those of nodes and pipes.

func spotName(v *site.Spot) string { return labelOr(v.Label, "spot", string(v.ID)) }

func waterName(v *site.WaterPoint) string {
	return labelOr(v.Label, waterWord(v.Kind), string(v.ID))
}

func underlayName(v *site.Underlay) string { return labelOr(v.Label, "floor plan", string(v.ID)) }

func labelOr(label, word, id string) string {
	if label != "" {
		return label
	}
	return word + " " + id
}

func noteName(v *site.Note) string { return "note " + string(v.ID) }

func layName() string { return "lay" }
