package hand

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/aim"
	"linemap/internal/ui/view"
	"linemap/internal/unit"
)

// bench is a board without a window: it does what the tools ask for.
type bench struct {
	t         require.TestingT
	history   *edit.History
	tool      Tool
	world     World
	last      Event
	reply     Reply
	menus     int
	unused    int
	errs      []string
	said      []string
	answer    func(string) Reply
	revisions int
}

func newBench(t require.TestingT, s *site.Site) *bench {
	b := &bench{t: t, history: edit.NewHistory(s), tool: NewPick()}
	fall := unit.Slope(0.02)
	b.world = World{
		View: view.View{Scale: 20, W: 1000, H: 800}, Snap: true,
		Style: edit.PipeStyle{Size: 4, Material: network.PVC40, Slope: &fall, Class: network.BuildingDrain},
	}
	if l := s.Network.Levels; len(l) > 0 {
		b.world.Level = l[0].Name
	}
	b.look()
	return b
}

// look works out what the tools may look at.
func (b *bench) look() {
	s := b.history.Site()
	b.world.Site = s
	b.world.Graph, _ = network.Trace(&s.Network)
	b.world.Index = aim.NewIndex(s, b.world.Graph)
	b.world.Grid = b.world.View.Grid(s.Units).Step
	b.revisions++
}

func (b *bench) give(ev Event) {
	b.follow(b.tool.Handle(&b.world, ev))
	b.tool.Ghost(&b.world)
	b.tool.Hint(&b.world)
}

func (b *bench) follow(r Reply) {
	b.reply = r
	if r.Err != nil {
		b.errs = append(b.errs, r.Err.Error())
	}
	if r.Say != "" {
		b.said = append(b.said, r.Say)
	}
	if r.Edit != nil && !r.Edit.Empty() {
		b.history.Do(r.Edit)
		b.look()
		if made := r.Edit.Made(); len(made) > 0 {
			b.world.Selection = edit.Select(made...)
		}
		b.world.Selection = b.world.Selection.Keep(edit.Everything(b.history.Site()).Has)
	}
	if r.Select != nil {
		b.world.Selection = *r.Select
	}
	if r.Tool != nil {
		b.tool = r.Tool
	}
	if r.Ask != "" {
		b.answer = r.Answer
	}
	if r.Menu {
		b.menus++
	}
	if r.Unused {
		b.unused++
	}
}

func (b *bench) event(kind EventKind, at network.Point) Event {
	b.last = Event{Kind: kind, At: at, Dot: b.world.View.Dot(at), Clicks: 1}
	return b.last
}

// do plays a script: steps split by ";", each a word and what it is done with.
//
//	take P          a tool by its key
//	click 1,2       also "double" and "right"; "shift" or "alt" behind it
//	move 1,2        the pointer, no button held
//	drag 1,2 3,4    from there to there
//	hold 1,2 3,4    the same without letting go
//	drop 3,4        lets go
//	key Return      a key
//	type 12-6       characters
//	answer text     to what a tool asked
//	size 3          of the next pipe
//	level Roof      to draw on
//	undo            takes the last edit back
func (b *bench) do(script string) {
	for step := range strings.SplitSeq(script, ";") {
		step = strings.TrimSpace(step)
		if step == "" {
			continue
		}
		word, rest, _ := strings.Cut(step, " ")
		b.step(word, rest)
	}
}

func (b *bench) step(word, rest string) {
	args := strings.Fields(rest)
	shift, alt := slices.Contains(args, "shift"), slices.Contains(args, "alt")
	at := func(i int) network.Point { return b.place(args[i]) }
	press := func(ev Event) Event { ev.Shift, ev.Alt = shift, alt; return ev }
	switch word {
	case "take":
		b.take(rest)
	case "click", "double", "right":
		n := 1
		if word == "double" {
			n = 2
		}
		for i := range n {
			ev := press(b.event(Move, at(0)))
			b.give(ev)
			ev.Kind, ev.Clicks, ev.Right = Press, i+1, word == "right"
			b.give(ev)
			ev.Kind = Release
			b.give(ev)
		}
	case "move":
		b.give(press(b.event(Move, at(0))))
	case "drag", "hold":
		b.give(press(b.event(Press, at(0))))
		b.give(press(b.event(Drag, at(0))))
		b.give(press(b.event(Drag, at(1))))
		if word == "drag" {
			b.give(press(b.event(Release, at(1))))
		}
	case "drop":
		b.give(press(b.event(Release, at(0))))
	case "key":
		ev := press(b.last)
		ev.Kind, ev.Key = Key, args[0]
		b.give(ev)
	case "type":
		for _, r := range rest {
			ev := b.last
			ev.Kind, ev.Rune = Rune, r
			b.give(ev)
		}
	case "answer":
		require.NotNil(b.t, b.answer, "nothing was asked")
		b.follow(b.answer(rest))
	case "size":
		size, err := strconv.ParseFloat(rest, 64)
		require.NoError(b.t, err)
		b.world.Style.Size = unit.Size(size)
	case "level":
		b.world.Level = rest
	case "undo":
		b.history.Undo()
		b.look()
	default:
		require.Fail(b.t, "no such step: "+word)
	}
}

func (b *bench) take(key string) {
	for _, e := range Kit() {
		if e.Key == key {
			b.tool = e.New()
			return
		}
	}
	require.Fail(b.t, "no tool "+key)
}

func (b *bench) place(text string) network.Point {
	var x, y float64
	_, err := fmt.Sscanf(text, "%f,%f", &x, &y)
	require.NoError(b.t, err, text)
	return network.Point{X: unit.Metres(x), Y: unit.Metres(y)}
}

// drawn writes what is on a site, one thing a line, so that a test reads like
// the sketch.
func drawn(s *site.Site) []string {
	at := func(p network.Point) string {
		return strconv.FormatFloat(roundTo(p.X), 'f', -1, 64) + "," + strconv.FormatFloat(roundTo(p.Y), 'f', -1, 64)
	}
	g, _ := network.Trace(&s.Network)
	node := func(id network.NodeID) string {
		i, _ := g.NodeIndex(id)
		n := &g.Net.Nodes[i]
		return strings.TrimSpace(n.Word()+" "+n.Label) + " " + at(n.At)
	}
	var all []string
	for i := range s.Network.Pipes {
		p := &s.Network.Pipes[i]
		line := p.Size.In(unit.US) + ": " + node(p.From)
		for _, v := range p.Via {
			line += " > " + at(v)
		}
		all = append(all, line+" > "+node(p.To))
	}
	for i := range s.Network.Nodes {
		if n := &s.Network.Nodes[i]; len(g.Above[i])+len(g.Below[i]) == 0 {
			all = append(all, node(n.ID))
		}
	}
	for i := range s.Spots {
		all = append(all, s.Spots[i].Label+" "+at(s.Spots[i].At))
	}
	for i := range s.Water {
		all = append(all, s.Water[i].Label+" "+at(s.Water[i].At))
	}
	for i := range s.Notes {
		all = append(all, fmt.Sprintf("note %q %s", s.Notes[i].Text, at(s.Notes[i].At)))
	}
	for i := range s.Lays {
		line := "lay:"
		for _, p := range edit.LayWay(s, &s.Lays[i]) {
			line += " " + at(p)
		}
		all = append(all, line)
	}
	for i := range s.Areas {
		line := s.Areas[i].Label + ":"
		for _, p := range s.Areas[i].Outline {
			line += " " + at(p)
		}
		all = append(all, line)
	}
	slices.Sort(all)
	return all
}

func roundTo(l unit.Length) float64 {
	v, _ := strconv.ParseFloat(strconv.FormatFloat(l.Metres(), 'f', 3, 64), 64)
	return v + 0 // not -0
}

// empty is a metric site with nothing on it.
func empty(t testing.TB) *site.Site {
	s, err := site.New(unit.Metric)
	require.NoError(t, err)
	return s
}

func underlay(id site.UnderlayID, x, y float64, locked bool) site.Underlay {
	return site.Underlay{ID: id, At: network.Point{X: unit.Metres(x), Y: unit.Metres(y)}, Scale: 0.01, File: "plan.png", Locked: locked}
}

func metre(i int) unit.Length { return unit.Metres(float64(i)) }

func pipeRef(n *network.Network, i int) edit.Ref { return edit.PipeRef(n.Pipes[i].ID) }
