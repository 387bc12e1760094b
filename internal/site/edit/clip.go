package edit

import (
	"errors"
	"fmt"
	"strings"

	"linemap/internal/network"
	"linemap/internal/site"
)

// Clip is a part of a site that was copied. It shares nothing with the site and
// is never changed; the zero Clip is empty.
type Clip struct{ part *site.Site }

// Copy returns what is selected, pipes with the nodes at their ends, and the
// lays between what is copied. A junction that comes along without one of its
// pipes is mended as [Delete] would do it. What was decided by hand about runs
// is not copied.
func Copy(s *site.Site, sel Selection) Clip {
	part := &site.Site{Version: s.Version, Units: s.Units, Paper: s.Paper, Code: s.Code, Rig: s.Rig.Clone(), Network: s.Network}
	along := map[Ref]bool{}
	for i := range s.Network.Pipes {
		if p := &s.Network.Pipes[i]; sel.Has(PipeRef(p.ID)) {
			along[NodeRef(p.From)], along[NodeRef(p.To)] = true, true
		}
	}
	taken := func(r Ref) bool { return sel.Has(r) || along[r] }
	part.Spots = filter(s.Spots, func(v *site.Spot) bool { return taken(SpotRef(v.ID)) })
	part.Water = filter(s.Water, func(v *site.WaterPoint) bool { return taken(WaterRef(v.ID)) })
	part.Areas = filter(s.Areas, func(v *site.Area) bool { return taken(AreaRef(v.ID)) })
	part.Notes = filter(s.Notes, func(v *site.Note) bool { return taken(NoteRef(v.ID)) })
	part.Underlays = filter(s.Underlays, func(v *site.Underlay) bool { return taken(UnderlayRef(v.ID)) })
	part.Lays = filter(s.Lays, func(l *site.Lay) bool {
		return taken(SpotRef(l.Spot)) && (l.Access != "" && taken(NodeRef(l.Access)) || l.Water != "" && taken(WaterRef(l.Water)))
	})
	part = part.Clone()

	left := map[Ref]bool{}
	for i := range part.Network.Nodes {
		if r := NodeRef(part.Network.Nodes[i].ID); !taken(r) {
			left[r] = true
		}
	}
	for i := range part.Network.Pipes {
		if r := PipeRef(part.Network.Pipes[i].ID); !taken(r) {
			left[r] = true
		}
	}
	e, err := Make("copy", part, func(d *Draft) error { return (&deletion{d, left}).drain() })
	if err != nil {
		return Clip{}
	}
	e.Do(part)
	used := levelsIn(part)
	part.Network.Levels = filter(part.Network.Levels, func(l *network.Level) bool { return used[l.Name] })
	return Clip{part}
}

// filter is the part of a list for which keep holds, never nil.
func filter[T any](list []T, keep func(*T) bool) []T {
	kept := make([]T, 0, len(list))
	for i := range list {
		if keep(&list[i]) {
			kept = append(kept, list[i])
		}
	}
	return kept
}

// Empty reports whether there is nothing to paste.
func (c Clip) Empty() bool { return c.part == nil || Everything(c.part).Len() == 0 }

// Text writes the clip so that another program's window, or a later one, can
// paste it: it is a site file of its own.
func (c Clip) Text() (string, error) {
	if c.Empty() {
		return "", errNoClip
	}
	data, err := site.Encode(c.part)
	return string(data), err
}

var errNoClip = errors.New("there is nothing to paste")

// ClipFromText reads what [Clip.Text] wrote, or any site file. It takes all of
// it or errs.
func ClipFromText(text string) (Clip, error) {
	if !strings.HasPrefix(strings.TrimLeft(text, " \t\r\n\ufeff"), "{") {
		return Clip{}, errors.New("the clipboard holds no part of a drawing")
	}
	s, err := site.Decode([]byte(text))
	if err != nil {
		return Clip{}, fmt.Errorf("the clipboard holds no part of a drawing that can be pasted: %w", err)
	}
	c := Clip{s}
	if c.Empty() {
		return Clip{}, errors.New("the clipboard holds a drawing with nothing on it")
	}
	return c, nil
}
