package board

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/ui/hand"
	"linemap/internal/ui/view"
	"linemap/internal/unit"
)

// Acts are what the board leaves to the window.
type Acts struct {
	// Tell shows why something did not go.
	Tell func(error)
	// Say, which may be nil, shows what came of a click that may not be meant.
	Say func(string)
	// Menu opens the menu of what is selected, at a place of the canvas.
	Menu func(at fyne.Position)
	// Key takes a key and Rune a character for which the tool has no use.
	Key  func(*fyne.KeyEvent)
	Rune func(rune)
	// Moved is called after every event, for the line that tells where the
	// pointer is and what a click would do.
	Moved func()
	// Guard calls a function with a net under it: a fault must not end the
	// program.
	Guard func(func())
	// Pictures is as in [chart.BoardOptions]. It is called from another
	// goroutine.
	Pictures func(*site.Underlay) (image.Image, unit.Length)
}

// Board is the drawing board.
type Board struct {
	widget.BaseWidget

	desk *desk.Desk
	acts Acts

	view    view.View
	tool    hand.Tool
	pointer pointer
	played  Played
	lit     int
	ghosted bool // other levels are shown too
	plan    bool // runs and lays are shown

	painter *painter
	shown   *picture // what is on the screen
	asked   *job     // what was asked of the painter last
	layer   *overlay
	marked  *marks        // the selection, nil where it has to be looked at anew
	asking  *widget.PopUp // the field that a tool asked for

	now func() time.Time // the clock that tells double clicks
}

// Played is what is shown of the day while it is played.
type Played struct {
	// Lay and Hose are the ways of the hose on the ground and in the drain, the
	// nozzle at the end of Hose; Label stands beside it.
	Lay, Hose []network.Point
	Label     string
}

// New returns a board for a desk.
func New(d *desk.Desk, acts Acts) *Board {
	b := &Board{desk: d, acts: acts, view: view.View{Scale: 20}, tool: hand.NewPick(), ghosted: true, plan: true, now: time.Now}
	b.painter = newPainter(func(p *picture) { fyne.Do(func() { acts.Guard(func() { b.receive(p) }) }) })
	b.ExtendBaseWidget(b)
	d.Watch(b.changed)
	return b
}

// changed follows the desk.
func (b *Board) changed(c desk.Change) {
	if c&(desk.Document|desk.Selected) != 0 {
		b.marked = nil
	}
	switch {
	case c&desk.Opened == desk.Opened:
		b.stopAsking()
		b.SetTool(hand.NewPick())
		b.Fit()
	case c&(desk.Document|desk.Planned|desk.Level|desk.Style) != 0:
		b.repaint()
	}
	b.overlay()
}

// World is what the tool in hand may look at.
func (b *Board) World() *hand.World {
	d := b.desk
	return &hand.World{
		Site: d.Site(), Graph: d.Graph(), Index: d.Index(), View: b.view, Level: d.Level(),
		Selection: d.Selection(), Style: d.PipeStyle(), Grid: b.view.Grid(d.Units()).Step, Snap: d.Grid().Snap,
	}
}

// Tool is the tool in hand.
func (b *Board) Tool() hand.Tool { return b.tool }

// SetTool puts another tool in hand; what the old one had begun is dropped.
func (b *Board) SetTool(t hand.Tool) {
	b.tool = t
	b.overlay()
	b.acts.Moved()
}

// Hint says what the next click or key does.
func (b *Board) Hint() string { return b.tool.Hint(b.World()) }

// Pointer is where the pointer is on the ground, and what it is drawn to in a
// word or two; ok is false where it is off the board.
func (b *Board) Pointer() (at network.Point, snapped string, ok bool) {
	return b.view.Ground(b.pointer.dot), b.tool.Ghost(b.World()).Snapped, b.pointer.in
}

// View is what the board shows.
func (b *Board) View() view.View { return b.view }

// SetView shows another part of the ground.
func (b *Board) SetView(v view.View) {
	b.view = v
	b.place()
	b.want()
	b.overlay()
	b.acts.Moved()
}

// ZoomBy magnifies about the middle of the board.
func (b *Board) ZoomBy(k float64) {
	b.SetView(b.view.Zoom(view.Dot{X: b.view.W / 2, Y: b.view.H / 2}, k))
}

// margin is what a fit leaves free on every side, in pixels.
const margin = 60

// Fit shows the whole level, or the whole site where the level is empty.
func (b *Board) Fit() {
	points := places(b.desk.Site(), func(level string) bool { return level == b.desk.Level() })
	if len(points) == 0 {
		points = places(b.desk.Site(), func(string) bool { return true })
	}
	b.SetView(b.view.Fit(points, margin))
}

// ZoomTo shows things, on the level of the first.
func (b *Board) ZoomTo(refs ...edit.Ref) {
	where := edit.Places(b.desk.Site(), edit.Select(refs...))
	if len(where) == 0 {
		return
	}
	if level, ok := edit.LevelOf(b.desk.Site(), refs[0]); ok {
		b.desk.SetLevel(level)
	}
	b.SetView(b.view.Fit(where, 3*margin))
}

// ShowGhosts shows or hides the other levels behind the one drawn on.
func (b *Board) ShowGhosts(on bool) {
	b.ghosted = on
	b.repaint()
}

// Ghosts reports whether the other levels are shown.
func (b *Board) Ghosts() bool { return b.ghosted }

// ShowPlan shows or hides the runs and the lays.
func (b *Board) ShowPlan(on bool) {
	b.plan = on
	b.repaint()
}

// PlanShown reports whether the runs and the lays are shown.
func (b *Board) PlanShown() bool { return b.plan }

// Painting reports whether a picture of the board is in the making.
func (b *Board) Painting() bool { return b.painter.busy() }

// Play shows a moment of the day; the zero Played shows none.
func (b *Board) Play(p Played) {
	b.played = p
	b.overlay()
}

// Light lights up a run by its number, 0 for none.
func (b *Board) Light(run int) {
	b.lit = run
	b.overlay()
}

// places lists where the things of some levels lie; spots, water points and
// areas lie on all of them.
func places(s *site.Site, on func(level string) bool) []network.Point {
	var all []network.Point
	level := map[network.NodeID]string{}
	for i := range s.Network.Nodes {
		n := &s.Network.Nodes[i]
		level[n.ID] = n.Level
		if on(n.Level) {
			all = append(all, n.At)
		}
	}
	for i := range s.Network.Pipes {
		if p := &s.Network.Pipes[i]; on(level[p.From]) || on(level[p.To]) {
			all = append(all, p.Via...)
		}
	}
	for i := range s.Spots {
		all = append(all, s.Spots[i].At)
	}
	for i := range s.Water {
		all = append(all, s.Water[i].At)
	}
	for i := range s.Areas {
		all = append(all, s.Areas[i].Outline...)
	}
	for i := range s.Notes {
		if on(s.Notes[i].Level) {
			all = append(all, s.Notes[i].At)
		}
	}
	for i := range s.Underlays {
		if on(s.Underlays[i].Level) {
			all = append(all, s.Underlays[i].At)
		}
	}
	return all
}
