package edit_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// worker does everything at random that can be done to a site: it draws, as a
// sketcher does, and works on what is drawn.
type worker struct {
	sketcher
	clip *edit.Clip
}

// operation is one way to make an edit.
type operation struct {
	name string
	make func(k worker) (*edit.Edit, error)
}

var deletion = operation{"delete", func(k worker) (*edit.Edit, error) { return edit.Delete(k.s, k.selection()) }}

// operations are all edits of the package; those of drawing are a sketcher's.
var operations = []operation{
	{"draw", func(k worker) (*edit.Edit, error) { return k.edit() }},
	{"draw more", func(k worker) (*edit.Edit, error) { return k.edit() }},
	{"draw still more", func(k worker) (*edit.Edit, error) { return k.edit() }},
	{"ground", func(k worker) (*edit.Edit, error) { return k.onGround() }},
	{"move", func(k worker) (*edit.Edit, error) { return edit.Move(k.s, k.selection(), k.point()) }},
	{"nudge", func(k worker) (*edit.Edit, error) {
		e, err := edit.Move(k.s, edit.All(k.s, "Ground"), pt(0.1, 0))
		if err != nil {
			return nil, err
		}
		return e.Merging("nudge"), nil
	}},
	{"rotate", func(k worker) (*edit.Edit, error) {
		return edit.Rotate(k.s, k.selection(), k.point(), unit.Degrees(pick(k.sketcher, 90, 45, -22.5, 17)))
	}},
	{"mirror", func(k worker) (*edit.Edit, error) { return edit.Mirror(k.s, k.selection(), k.point(), k.point()) }},
	deletion,
	{"reverse", func(k worker) (*edit.Edit, error) { return edit.Reverse(k.s, k.selection()) }},
	{"join", func(k worker) (*edit.Edit, error) { return edit.JoinEnds(k.s, k.end(), k.end()) }},
	{"duplicate", func(k worker) (*edit.Edit, error) { return edit.Duplicate(k.s, k.selection(), k.point()) }},
	{"paste", func(k worker) (*edit.Edit, error) {
		*k.clip = edit.Copy(k.s, k.selection())
		return edit.Paste(k.s, *k.clip, k.point(), k.level())
	}},
	{"paste again", func(k worker) (*edit.Edit, error) { return edit.Paste(k.s, *k.clip, k.point(), k.level()) }},
	{"paste text", func(k worker) (*edit.Edit, error) {
		text, err := edit.Copy(k.s, k.selection()).Text()
		if err != nil {
			return nil, err
		}
		c, err := edit.ClipFromText(text)
		require.NoError(k.T, err, "what was copied can be pasted")
		return edit.Paste(k.s, c, k.point(), k.level())
	}},
	{"change", func(k worker) (*edit.Edit, error) { return edit.Change(k.s, "change", k.selection(), k.changes()) }},
	{"add level", func(k worker) (*edit.Edit, error) { return edit.AddLevel(k.s, k.level(), 3) }},
	{"rename level", func(k worker) (*edit.Edit, error) { return edit.RenameLevel(k.s, k.level(), k.level()) }},
	{"lift level", func(k worker) (*edit.Edit, error) {
		return edit.SetLevelElevation(k.s, k.level(), pick[unit.Length](k.sketcher, 1, 2, 9001))
	}},
	{"remove level", func(k worker) (*edit.Edit, error) { return edit.RemoveLevel(k.s, k.level()) }},
	{"move to level", func(k worker) (*edit.Edit, error) { return edit.MoveToLevel(k.s, k.selection(), k.level()) }},
	{"draw area", func(k worker) (*edit.Edit, error) { return edit.PlaceArea(k.s, k.areaKind(), k.outline()) }},
	{"add area corner", func(k worker) (*edit.Edit, error) { return edit.AddAreaCorner(k.s, k.area(), k.corner(), k.point()) }},
	{"move area corner", func(k worker) (*edit.Edit, error) { return edit.MoveAreaCorner(k.s, k.area(), k.corner(), k.point()) }},
	{"remove area corner", func(k worker) (*edit.Edit, error) { return edit.RemoveAreaCorner(k.s, k.area(), k.corner()) }},
	{"set area", func(k worker) (*edit.Edit, error) {
		return edit.SetArea(k.s, k.area(), func(a *site.Area) { a.Kind, a.Note = k.areaKind(), rapid.String().Draw(k.T, "note") })
	}},
	{"keep run", func(k worker) (*edit.Edit, error) { return edit.KeepRun(k.s, k.run()) }},
	{"bar run", func(k worker) (*edit.Edit, error) { return edit.BarRun(k.s, k.run()) }},
	{"free run", func(k worker) (*edit.Edit, error) { return edit.FreeRun(k.s, k.run()) }},
	{"keep runs", func(k worker) (*edit.Edit, error) { return edit.KeepRuns(k.s, []site.RunKey{k.run(), k.run()}) }},
	{"free runs", func(k worker) (*edit.Edit, error) { return edit.FreeRuns(k.s) }},
	{"order runs", func(k worker) (*edit.Edit, error) { return edit.OrderRuns(k.s, []site.RunKey{k.run(), k.run()}) }},
	{"clear order", func(k worker) (*edit.Edit, error) { return edit.ClearOrder(k.s) }},
	{"job", func(k worker) (*edit.Edit, error) {
		return edit.SetJob(k.s, site.Job{Title: rapid.String().Draw(k.T, "title"), Date: pick(k.sketcher, "", "2026-03-17", "2026-02-30")})
	}},
	{"rig", func(k worker) (*edit.Edit, error) {
		r := k.s.Rig.Clone()
		r.Tank.Volume = pick(k.sketcher, unit.Litres(1000), unit.Litres(2000), unit.Litres(1e9))
		return edit.SetRig(k.s, r)
	}},
	{"units", func(k worker) (*edit.Edit, error) {
		return edit.SetUnits(k.s, pick(k.sketcher, unit.US, unit.Metric, ""))
	}},
	{"paper", func(k worker) (*edit.Edit, error) {
		return edit.SetPaper(k.s, pick(k.sketcher, site.A4, site.Letter, ""))
	}},
	{"prices", func(k worker) (*edit.Edit, error) {
		p := k.s.Prices.Clone()
		p.Currency, p.Units = pick(k.sketcher, "USD", "EUR", "shells"), unit.US
		return edit.SetPrices(k.s, p)
	}},
	{"visit", func(k worker) (*edit.Edit, error) {
		return edit.SetVisit(k.s, site.Visit{
			Date: pick(k.sketcher, "2025-09-02", "2026-01-05", "2026-03-17", "2026-02-30"), Note: rapid.String().Draw(k.T, "note"),
			Runs: []site.RunResult{{Run: k.run(), Pipes: []site.PipeResult{{Pipe: "p1"}}}},
		})
	}},
	{"remove visit", func(k worker) (*edit.Edit, error) {
		return edit.RemoveVisit(k.s, pick(k.sketcher, "2025-09-02", "2026-01-05", "2026-03-17"))
	}},
	{"place on Earth", func(k worker) (*edit.Edit, error) {
		return edit.SetGeo(k.s, pick(k.sketcher, nil, &site.Geo{Latitude: 1}, &site.Geo{Latitude: 2}))
	}},
	{"code", func(k worker) (*edit.Edit, error) { return edit.SetCode(k.s, pick(k.sketcher, "ipc", "upc")) }},
}

func (k worker) level() string { return pick(k.sketcher, "Ground", "First", "Roof", "Attic", "") }

// selection is one thing, a few, or all of a level.
func (k worker) selection() edit.Selection {
	all := edit.All(k.s, k.level())
	refs := all.Refs()
	if len(refs) == 0 || rapid.IntRange(0, 20).Draw(k.T, "all") == 0 {
		return all
	}
	few := rapid.SliceOfN(rapid.SampledFrom(refs), 1, pick(k.sketcher, 1, 1, 3, 8)).Draw(k.T, "selection")
	if r := few[0]; rapid.IntRange(0, 9).Draw(k.T, "alike") == 0 {
		return edit.SameKind(k.s, r)
	} else if rapid.IntRange(0, 9).Draw(k.T, "branch") == 0 {
		g, _ := network.Trace(&k.s.Network)
		return edit.Branch(g, r, rapid.Bool().Draw(k.T, "upstream"))
	}
	return edit.Select(few...)
}

func (k worker) areaKind() site.AreaKind {
	return pick(k.sketcher, site.Stand, site.KeepClear, site.Walkway, "")
}

// area is one of the site's, or one that is not there.
func (k worker) area() site.AreaID {
	ids := []site.AreaID{"gone"}
	for _, a := range k.s.Areas {
		ids = append(ids, a.ID)
	}
	return rapid.SampledFrom(ids).Draw(k.T, "area")
}

func (k worker) corner() int { return rapid.IntRange(-1, 5).Draw(k.T, "corner") }

func (k worker) outline() []network.Point {
	var all []network.Point
	for range rapid.IntRange(2, 5).Draw(k.T, "corners") {
		all = append(all, k.point())
	}
	return all
}

// end is a node, one with a single pipe where there is one.
func (k worker) end() network.NodeID {
	legs := map[network.NodeID]int{}
	for _, p := range k.s.Network.Pipes {
		legs[p.From]++
		legs[p.To]++
	}
	ends := []network.NodeID{"gone"}
	for _, n := range k.s.Network.Nodes {
		if legs[n.ID] == 1 {
			ends = append(ends, n.ID)
		}
	}
	return rapid.SampledFrom(ends).Draw(k.T, "end")
}

func (k worker) run() site.RunKey {
	key := site.RunKey{Spot: "s1", Hose: "half", Access: "co", End: "p1"}
	if p := k.pipe(); p != "" {
		key.End = p
	}
	for _, n := range k.s.Network.Nodes {
		if n.Access != nil {
			key.Access = n.ID
		}
	}
	return key
}

// changes are sound ones and others.
func (k worker) changes() edit.Changes {
	odd := rapid.IntRange(0, 9).Draw(k.T, "odd") == 0
	z := unit.Length(rapid.IntRange(-3, 3).Draw(k.T, "height"))
	return edit.Changes{
		Node: func(n *network.Node) {
			n.Invert = &z
			if odd {
				n.Kind = network.KindFixture
			}
		},
		Pipe: func(p *network.Pipe) {
			p.Label, p.Size = "Line 1", pick[unit.Size](k.sketcher, 3, 4, 6)
			if odd {
				p.Length = &z
			}
		},
		Spot:     func(v *site.Spot) { v.Elevation = z },
		Water:    func(v *site.WaterPoint) { v.Flow *= 2 },
		Lay:      func(l *site.Lay) { l.Length = &z },
		Area:     func(a *site.Area) { a.Label = pick(k.sketcher, "Lot", "Fire lane") },
		Note:     func(n *site.Note) { n.Level = k.level() },
		Underlay: func(u *site.Underlay) { u.Locked = odd },
	}
}

// start is a site to work on: an empty one, a small one, and one with every
// member of the format and some that this program does not know.
func start(t *rapid.T) *site.Site {
	var s *site.Site
	switch rapid.IntRange(0, 2).Draw(t, "start") {
	case 0:
		s = must(site.New(unit.US))
		s.Network.Levels = []network.Level{{Name: "Ground", Elevation: -1}, {Name: "First", Elevation: 3}, {Name: "Roof", Elevation: 9}}
	case 1:
		s = yard(t)
	default:
		data, err := os.ReadFile("../testdata/whole.linemap")
		require.NoError(t, err)
		s = must(site.Decode(data))
	}
	return s
}

// TestAnyEditsUndoRedo: any sequence of 200 edits, undone, gives the first bytes
// back, and the bytes of every step on the way; redone, the last. No edit changes
// the site while it is made, and whatever is done, the document loads.
func TestAnyEditsUndoRedo(t *testing.T) {
	const many, full = 200, 40 // edits, and nodes above which nothing is copied
	checks, worked := 0, map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		checks++
		s := start(t)
		k := worker{sketcher{t, s}, new(edit.Clip)}
		h := edit.NewHistory(s)
		states := []string{bytesOf(t, s)} // after each entry of the history
		nudged := false                   // the last one was a nudge
		for range many {
			op := rapid.SampledFrom(operations).Draw(t, "operation")
			if len(s.Network.Nodes) > full {
				op = deletion
			}
			last := states[len(states)-1]
			e, err := op.make(k)
			require.Equal(t, last, bytesOf(t, s), "making %s changed the site", op.name)
			if err != nil {
				require.Nil(t, e)
				require.NotEmpty(t, err.Error())
				continue
			}
			h.Do(e)
			for _, r := range e.Made() {
				require.True(t, edit.SameKind(s, r).Has(r), "%s made %v", e.Name(), r)
			}
			if e.Empty() {
				require.Equal(t, last, bytesOf(t, s))
				continue
			}
			worked[op.name]++
			now := bytesOf(t, s)
			_, err = site.Decode([]byte(now))
			require.NoError(t, err, "after %s", e.Name())
			if nudge := op.name == "nudge"; nudge && nudged {
				states[len(states)-1] = now // taken back as one
			} else {
				states, nudged = append(states, now), nudge
			}
		}
		for i := len(states) - 2; i >= 0; i-- {
			require.NotNil(t, h.Undo())
			require.Equal(t, states[i], bytesOf(t, s), "undo to step %d", i)
		}
		require.Nil(t, h.Undo())
		for range len(states) - 1 {
			require.NotNil(t, h.Redo())
		}
		require.Nil(t, h.Redo())
		require.Equal(t, states[len(states)-1], bytesOf(t, s), "redo")
	})
	if checks >= 20 && !t.Failed() {
		for _, op := range operations {
			assert.Positive(t, worked[op.name], "%s never worked: the test does not reach it", op.name)
		}
	}
}
