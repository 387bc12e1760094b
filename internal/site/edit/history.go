package edit

import "linemap/internal/site"

// History carries edits out on one site and takes them back, without limit.
type History struct {
	site         *site.Site
	done, undone []*Edit
	saved        int // how many edits were done when the site was saved, -1 for never again
}

// NewHistory returns the history of a site that has just been opened, saved or
// made.
func NewHistory(s *site.Site) *History { return &History{site: s} }

// Site is the site. It is changed by the history alone.
func (h *History) Site() *site.Site { return h.site }

// Do carries an edit out; an empty one is nothing.
func (h *History) Do(e *Edit) {
	if e == nil || e.Empty() {
		return
	}
	e.Do(h.site)
	if len(h.undone) > 0 && h.saved > len(h.done) {
		h.saved = -1 // what was saved can be reached no more
	}
	h.undone = nil
	if n := len(h.done); n > 0 && e.merge != "" && h.done[n-1].merge == e.merge && h.saved != n {
		both := *e
		both.steps = append(append([]step{}, h.done[n-1].steps...), e.steps...)
		h.done[n-1] = &both
		return
	}
	h.done = append(h.done, e)
}

// Undo takes the last edit back and returns it, nil where there is none.
func (h *History) Undo() *Edit {
	n := len(h.done)
	if n == 0 {
		return nil
	}
	e := h.done[n-1]
	e.Undo(h.site)
	h.done, h.undone = h.done[:n-1], append(h.undone, e)
	return e
}

// Redo carries the edit out again that was taken back last and returns it, nil
// where there is none.
func (h *History) Redo() *Edit {
	n := len(h.undone)
	if n == 0 {
		return nil
	}
	e := h.undone[n-1]
	e.Do(h.site)
	h.undone, h.done = h.undone[:n-1], append(h.done, e)
	return e
}

// NextUndo and NextRedo name the edits that Undo and Redo would take, "" for
// none.
func (h *History) NextUndo() string { return nameOfLast(h.done) }

// NextRedo names the edit that Redo would carry out, "" for none.
func (h *History) NextRedo() string { return nameOfLast(h.undone) }

func nameOfLast(edits []*Edit) string {
	if len(edits) == 0 {
		return ""
	}
	return edits[len(edits)-1].name
}

// Saved notes that the site as it stands has been saved.
func (h *History) Saved() { h.saved = len(h.done) }

// Changed reports whether the site differs from what was saved last.
func (h *History) Changed() bool { return h.saved != len(h.done) }

// Unsaved notes that the site differs from its file whatever is undone.
func (h *History) Unsaved() { h.saved = -1 }
