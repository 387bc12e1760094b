package hand

import (
	"fmt"
	"hash/fnv"

	"linemap/internal/site/edit"
)

func (t *Pick) key(w *World, ev Event) Reply {
	switch by, ok := arrow(w, ev); {
	case ev.Key == "Escape" && t.doing != nothing:
		t.doing = nothing
		return Reply{}
	case w.Selection.Len() == 0 || t.doing != nothing:
		return Reply{Unused: true}
	case ev.Key == "Escape":
		return Reply{Select: &edit.Selection{}}
	case ev.Key == "Delete", ev.Key == "BackSpace":
		return edited(edit.Delete(w.Site, w.Selection))
	case ok:
		e, err := edit.Move(w.Site, w.Selection, by)
		if err != nil {
			return Reply{Err: err}
		}
		return Reply{Edit: e.Merging(nudgeOf(w.Selection))}
	}
	return Reply{Unused: true}
}

// nudgeOf is the key under which the nudges of one selection are one step.
func nudgeOf(sel edit.Selection) string {
	h := fnv.New64a()
	for _, r := range sel.Refs() {
		fmt.Fprintf(h, "%s %q ", r.Kind, r.ID)
	}
	return fmt.Sprintf("nudge %x", h.Sum64())
}
