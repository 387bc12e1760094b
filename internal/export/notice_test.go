package export

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/route/sample"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func TestJoin(t *testing.T) {
	m := func(from, to float64) window { return window{minutes(from), minutes(to)} }
	for _, c := range []struct {
		name     string
		in, want []window
	}{
		{"none", nil, nil},
		{"one", []window{m(3, 7)}, []window{m(3, 7)}},
		{"out of order", []window{m(100, 110), m(0, 10)}, []window{m(0, 10), m(100, 110)}},
		{"within", []window{m(0, 90), m(10, 20)}, []window{m(0, 90)}},
		{"a short pause", []window{m(0, 10), m(69, 80)}, []window{m(0, 80)}},
		{"an hour is a pause", []window{m(0, 10), m(70, 80)}, []window{m(0, 10), m(70, 80)}},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, join(c.in)) })
	}
}

func TestByDay(t *testing.T) {
	crew := &rig.Crew{Shift: 480}
	h := time.Hour
	for _, c := range []struct {
		in   window
		want []dayWindow
	}{
		{window{h, 2 * h}, []dayWindow{{0, h, 2 * h}}},
		{window{7 * h, 8 * h}, []dayWindow{{0, 7 * h, 8 * h}}},
		{window{8 * h, 9 * h}, []dayWindow{{1, 0, h}}},
		{window{7 * h, 25 * h}, []dayWindow{{0, 7 * h, 8 * h}, {1, 0, 8 * h}, {2, 0, 8 * h}, {3, 0, h}}},
	} {
		assert.Equal(t, c.want, c.in.byDay(crew))
	}
	assert.Equal(t, []dayWindow{{0, h, 30 * h}}, window{h, 30 * h}.byDay(&rig.Crew{}), "no shift, no days")
}

func TestByName(t *testing.T) {
	names := []string{"Flat 10, kitchen", "Laundry", "Flat 2, kitchen", "Flat 2, bath", "Flat 02, attic", "Flat", "9"}
	slices.SortStableFunc(names, byName)
	assert.Equal(t, []string{"9", "Flat", "Flat 02, attic", "Flat 2, bath", "Flat 2, kitchen", "Flat 10, kitchen", "Laundry"}, names)
}

// events is the time from the first to the last of the day's events that serve,
// found event by event.
func events(p *route.Plan, serve func(*route.Event) bool) (w window, ok bool) {
	for i := range p.Day {
		if e := &p.Day[i]; serve(e) {
			if !ok {
				w.from = e.Start
			}
			w.to, ok = e.Start+e.Takes, true
		}
	}
	return w, ok
}

// The notice's windows are the plan's. For each room it is worked out anew from
// the day, run by run: when the crew is at its openings, and when a run jets in a
// pipe below it; the windows begin and end with these, hold all of them, and
// bridge no hour without one.
func TestNoticeWindowsAreThePlans(t *testing.T) {
	for _, d := range demos(t) {
		t.Run(d.name, func(t *testing.T) {
			g, _ := network.Trace(&d.site.Network)
			w := &wording{sys: d.site.Units, site: d.site, tables: d.tables, graph: g}
			open, dry := map[string][]window{}, map[string][]window{}
			nodes := d.site.Network.Nodes
			for b := range d.plan.Blocks {
				for _, run := range d.plan.Blocks[b].Runs {
					jets, _ := events(d.plan, func(e *route.Event) bool { return e.Run == run.Number && e.Kind == route.EventJet })
					at, _ := events(d.plan, func(e *route.Event) bool { return e.Run == run.Number })
					for i := range nodes {
						name := w.placeName(&nodes[i])
						if nodes[i].ID == run.Access {
							open[name] = append(open[name], at)
						}
						drain := nodes[i].Kind == network.KindFixture || nodes[i].Access != nil && nodes[i].Access.Indoor
						if drain && drainsThrough(g, i, &run) {
							dry[name] = append(dry[name], jets)
						}
					}
				}
			}
			places := w.noticePlaces(d.plan)
			seen := 0
			for _, pl := range places {
				hold(t, pl.name+" open", open[pl.name], pl.open, near)
				hold(t, pl.name+" dry", dry[pl.name], pl.dry, near)
				seen++
			}
			for name := range open {
				assert.True(t, slices.ContainsFunc(places, func(pl *noticePlace) bool { return pl.name == name }), name)
			}
			for name := range dry {
				assert.True(t, slices.ContainsFunc(places, func(pl *noticePlace) bool { return pl.name == name }), name)
			}
			assert.Greater(t, seen, 4)
		})
	}
}

// drainsThrough follows the water from a node to the outlet, pipe by pipe.
func drainsThrough(g *network.Graph, node int, run *route.Run) bool {
	for _, first := range g.Below[node] {
		for at := first; at >= 0; at = g.Next[at] {
			for _, leg := range run.Path {
				if g.Net.Pipes[at].ID == leg.Pipe {
					return true
				}
			}
		}
	}
	return false
}

// hold checks that windows are made of parts: each begins with one and ends with
// one, every part is in one, and no pause in one is an hour.
func hold(t *testing.T, what string, parts, windows []window, pause time.Duration) {
	t.Helper()
	for _, part := range parts {
		assert.True(t, slices.ContainsFunc(windows, func(w window) bool { return w.from <= part.from && part.to <= w.to }), "%s: %v is left out", what, part)
	}
	for _, w := range windows {
		assert.True(t, slices.ContainsFunc(parts, func(part window) bool { return part.from == w.from }), "%s begins out of the blue: %v", what, w)
		assert.True(t, slices.ContainsFunc(parts, func(part window) bool { return part.to == w.to }), "%s ends out of the blue: %v", what, w)
	}
	assert.Equal(t, len(windows) == 0, len(parts) == 0, what)
}

// To the minute: the notice says the same times of day as the run sheet for the
// first of a room's runs.
func TestNoticeSaysTheRunSheetsTimes(t *testing.T) {
	for _, d := range demos(t) {
		everyForm(t, func(t *testing.T, opt Options) {
			n := newNoticeSheet(d.site, d.tables, d.plan, opt)
			sh := newSheet(d.site, d.tables, d.plan, opt)
			said := map[string]bool{}
			for _, b := range sh.Blocks {
				for _, r := range b.Runs {
					for _, f := range r.Facts {
						if strings.HasPrefix(f.Name, factStart) {
							_, day, several := strings.Cut(f.Name, ", ")
							if !several {
								day = "day 1"
							}
							said[f.Say+", "+day] = true
						}
					}
				}
			}
			morning := clock(opt.Units, d.site.Job.Start, &d.site.Rig.Crew, 0)
			found := 0
			for _, r := range append(n.Rooms, n.Outside...) {
				for _, day := range r.Open {
					for _, at := range day.Times {
						from, to, _ := strings.Cut(strings.TrimPrefix(at, "at "), " to ")
						if f := strings.Fields(to); len(f) == 2 && !strings.HasSuffix(from, "m") {
							from += " " + f[1] // am or pm, said once
						}
						from += ", " + cmp.Or(day.Day, "day 1")
						overnight := strings.HasPrefix(from, morning+", day") && day.Day != "day 1"
						assert.True(t, said[from] || overnight, "%s from %s", r.Place, from)
						found++
					}
				}
			}
			assert.Positive(t, found)
		})
	}
}

// noticeSite is a house of two floors with a room on each, and a yard.
func noticeSite(t *testing.T) (*site.Site, *route.Plan) {
	s, _, p := quoteSite(t)
	for i := range s.Network.Nodes {
		if n := &s.Network.Nodes[i]; n.ID == "CO1" {
			n.Access.Indoor, n.Access.Room = true, "Laundry"
		}
	}
	return s, p
}

func TestNoticeSaysWhatToDo(t *testing.T) {
	s, p := noticeSite(t)
	n := newNoticeSheet(s, sample.Tables(), p, Options{})
	assert.Equal(t, "Tuesday, March 17, 2026", n.Day)
	assert.Equal(t, "R. Dough, 555-0142", n.Call)
	assert.Equal(t, "1:30 to "+Clock(s, p.Cost), n.Hours)
	jets, ok := events(p, func(e *route.Event) bool { return e.Kind == route.EventJet })
	require.True(t, ok)
	assert.Equal(t, "No water down the drains", n.Do[0].Name)
	assert.Contains(t, n.Do[0].Say, strings.TrimSuffix(Clock(s, jets.from), " pm")+" to "+Clock(s, jets.to))
	parking := n.Do[slices.IndexFunc(n.Do, func(f fact) bool { return f.Name == "Do not park here" })]
	assert.Contains(t, parking.Say, s.Spots[0].Label+": 1:30 to "+Clock(s, p.Cost))
	metric := newNoticeSheet(s, sample.Tables(), p, Options{Units: unit.Metric})
	assert.Equal(t, "Tuesday 17 March 2026", metric.Day)
	assert.True(t, strings.HasPrefix(metric.Hours, "13:30 to "))
}

func TestNoticeIsAPaper(t *testing.T) {
	s, p := noticeSite(t)
	isAPaper(t, "notice", func(opt Options) ([]byte, error) { return Notice(s, sample.Tables(), p, opt) }, []string{"Notice", "Rooms", "Outdoors"})
	out, err := Notice(s, sample.Tables(), p, Options{})
	require.NoError(t, err)
	everyTextIsFound(t, out, newNoticeSheet(s, sample.Tables(), p, Options{}))
	assert.Len(t, words(t, out), 1)
}

func TestDemoNoticesAreInOrder(t *testing.T) {
	for _, d := range demos(t) {
		t.Run(d.name, func(t *testing.T) {
			everyForm(t, func(t *testing.T, opt Options) {
				out, err := Notice(d.site, d.tables, d.plan, opt)
				require.NoError(t, err)
				pages := words(t, out)
				for i, page := range pages {
					checkPage(t, i+1, page)
				}
				if d.name != "school" {
					assert.Len(t, pages, 1, "a notice to post")
				}
				everyTextIsFound(t, out, newNoticeSheet(d.site, d.tables, d.plan, opt))
			})
		})
	}
}

// No date, no start, no rooms, nobody to call, nothing to do: there are lines to
// write on, and what is not known is said.
func TestNoticeOfLittle(t *testing.T) {
	s, _, p := quoteSite(t)
	s = s.Clone()
	s.Job = site.Job{}
	n := newNoticeSheet(s, sample.Tables(), p, Options{})
	assert.Empty(t, n.Day)
	assert.Equal(t, "Times with a plus count from the arrival of the crew.", n.Counted)
	assert.True(t, strings.HasPrefix(n.Hours, "+0 min to +"))
	for _, plan := range []*route.Plan{p, {}} {
		out, err := Notice(s, sample.Tables(), plan, Options{})
		require.NoError(t, err)
		checkPage(t, 1, words(t, out)[0])
	}
	empty, err := Notice(&site.Site{}, sample.Tables(), &route.Plan{}, Options{})
	require.NoError(t, err)
	text := outside(t, empty, "pdftotext", func(f string) []string { return []string{f, "-"} })
	assert.Contains(t, text, "no drain is cleaned")
}

// 500 runs through as many rooms, over many days: every room is there, in a
// second, and nothing leaves the page.
func TestNoticeOfManyRuns(t *testing.T) {
	s := fixtureSite()
	s.Rig.Crew.Shift = 480
	pl := &route.Plan{Blocks: []route.Block{{Spot: "yard", Hose: "half"}}}
	at := time.Duration(0)
	for i := range 500 {
		id := network.NodeID(fmt.Sprintf("X%d", i))
		s.Network.Nodes = append(s.Network.Nodes, network.Node{
			ID: id, Kind: network.KindAccess, Access: &network.Access{Indoor: true, Room: fmt.Sprintf("Room %d", i+1)},
		})
		pl.Blocks[0].Runs = append(pl.Blocks[0].Runs, route.Run{Number: i + 1, Access: id, Opens: true, Path: []route.Leg{{Pipe: "MH1-C1", Cleaned: true}}})
		for _, kind := range []route.EventKind{route.EventOpen, route.EventStart, route.EventJet} {
			pl.Day = append(pl.Day, route.Event{Kind: kind, Start: at, Takes: minutes(7), Run: i + 1, Pass: -1})
			at += minutes(7)
		}
	}
	pl.Cost = at
	began := time.Now()
	out, err := Notice(s, fixtureTables(), pl, Options{})
	require.NoError(t, err)
	t.Log(time.Since(began))
	pages := words(t, out)
	for i, page := range pages {
		checkPage(t, i+1, page)
	}
	text := strings.Join(strings.Fields(outside(t, out, "pdftotext", func(f string) []string { return []string{"-layout", f, "-"} })), " ")
	for i := range 500 {
		assert.Contains(t, text, fmt.Sprintf("Room %d ", i+1))
	}
	assert.Contains(t, text, "22 working days")
}
