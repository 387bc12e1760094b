package desk

import (
	"slices"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
	"linemap/internal/unit"
)

// Change is a set of things that changed.
type Change uint

// What can change.
const (
	Document Change = 1 << iota // the site
	Selected                    // what is selected
	Checked                     // the findings
	Planned                     // the plan, or how the planning gets on
	Level                       // the level that is drawn on
	Style                       // what the next pipe is made of, grid and snap
	File                        // the file, or whether it is saved
	Opened   Change = 1<<iota - 1
)

// Desk is the document and all that the window knows of it.
type Desk struct {
	tables   *site.Tables
	post     func(func())
	watchers []*func(Change)

	history  *edit.History
	revision int
	graph    *network.Graph // nil where it has to be traced anew
	index    *aim.Index
	snapshot *site.Site

	selection edit.Selection
	level     string
	style     edit.PipeStyle
	grid      Grid

	path string

	planner planner
}

// Grid is how the pointer is helped.
type Grid struct {
	Shown bool
	// Snap draws the pointer to nodes, pipes, the trade's angles and the grid.
	Snap bool
}

// New returns a desk with an empty site. Post hands a function to the goroutine
// that owns the desk.
func New(tables *site.Tables, units unit.System, post func(func())) (*Desk, error) {
	s, err := site.New(units)
	if err != nil {
		return nil, err
	}
	d := &Desk{tables: tables, post: post, grid: Grid{Shown: true, Snap: true}}
	d.put(s, "")
	return d, nil
}

// Watch has do called after every change, with what changed, until stop is
// called.
func (d *Desk) Watch(do func(Change)) (stop func()) {
	watcher := &do
	d.watchers = append(d.watchers, watcher)
	return func() {
		kept := slices.Clone(d.watchers) // the list may be gone through just now
		d.watchers = slices.DeleteFunc(kept, func(w *func(Change)) bool { return w == watcher })
	}
}

func (d *Desk) tell(c Change) {
	for _, do := range d.watchers {
		(*do)(c)
	}
}

// Site is the site. It is changed by [Desk.Do] alone.
func (d *Desk) Site() *site.Site { return d.history.Site() }

// Tables are the trade's figures.
func (d *Desk) Tables() *site.Tables { return d.tables }

// Units are the units that people read.
func (d *Desk) Units() unit.System { return d.Site().Units }

// Revision counts the changes of the site.
func (d *Desk) Revision() int { return d.revision }

// Graph is the drain with its flow traced.
func (d *Desk) Graph() *network.Graph {
	if d.graph == nil {
		d.graph, _ = network.Trace(&d.Site().Network)
	}
	return d.graph
}

// Snapshot is a copy of the site as it stands, that nobody may change.
func (d *Desk) Snapshot() *site.Site {
	if d.snapshot == nil {
		d.snapshot = d.Site().Clone()
	}
	return d.snapshot
}

// Index finds what lies where on the site.
func (d *Desk) Index() *aim.Index {
	if d.index == nil {
		d.index = aim.NewIndex(d.Site(), d.Graph())
	}
	return d.index
}

// Do carries an edit out; nil and empty ones are nothing. What the edit made is
// selected.
func (d *Desk) Do(e *edit.Edit) {
	if e == nil || e.Empty() {
		return
	}
	d.history.Do(e)
	changed := d.altered()
	if made := e.Made(); len(made) > 0 {
		d.selection = edit.Select(made...)
		changed |= Selected
	}
	d.tell(changed)
}

// Undo takes the last edit back; it returns its name, "" where there was none.
func (d *Desk) Undo() string { return d.step(d.history.Undo()) }

// Redo carries the edit taken back last out again; it returns its name, "" where
// there was none.
func (d *Desk) Redo() string { return d.step(d.history.Redo()) }

func (d *Desk) step(e *edit.Edit) string {
	if e == nil {
		return ""
	}
	d.tell(d.altered())
	return e.Name()
}

// NextUndo and NextRedo name what Undo and Redo would do, "" for nothing.
func (d *Desk) NextUndo() string { return d.history.NextUndo() }

// NextRedo names what Redo would do, "" for nothing.
func (d *Desk) NextRedo() string { return d.history.NextRedo() }

// altered follows a change of the site: what hangs on it is worked out anew.
func (d *Desk) altered() Change {
	d.revision++
	d.graph, d.index, d.snapshot = nil, nil, nil
	changed := Document | File | Planned
	if kept := d.selection.Keep(edit.Everything(d.Site()).Has); kept.Len() != d.selection.Len() {
		d.selection = kept
		changed |= Selected
	}
	if level := d.levelOr(d.level); level != d.level {
		d.level = level
		changed |= Level
	}
	d.replan()
	return changed
}

// put lays another site on the desk.
func (d *Desk) put(s *site.Site, path string) {
	d.history = edit.NewHistory(s)
	d.revision++
	d.graph, d.index, d.snapshot = nil, nil, nil
	d.selection = edit.Selection{}
	d.path = path
	d.level = d.levelOr("")
	d.style = edit.UsualStyle(s)
	d.planner.forget()
	d.replan()
	d.tell(Opened)
}
