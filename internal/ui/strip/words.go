package strip

import (
	"fmt"
	"strings"
	"time"

	"linemap/internal/export"
	"linemap/internal/route"
	"linemap/internal/route/replay"
	"linemap/internal/unit"
)

// eventWords say what an event is, when, how long, and what it does to the tank.
func (d *day) eventWords(event int) string {
	e := &d.plan.Day[event]
	sys := d.site.Units
	said := export.Capital(replay.Say(d.site, d.plan, event)) + ": " + d.when(e.Start, e.Start+e.Takes)
	if e.Kind == route.EventJet {
		if s := d.section(e.Run); s != nil && e.Pass >= 0 && e.Pass < len(s.run.Passes) {
			said += ", jets " + sys.Volume(s.run.Passes[e.Pass].Water)
		}
	}
	if e.Before == e.After {
		return said + ", tank at " + sys.Volume(e.After)
	}
	return said + fmt.Sprintf(", tank from %s to %s", sys.Volume(e.Before), sys.Volume(e.After))
}

// runWords say how long a run takes and what it jets.
func (d *day) runWords(run int) string {
	s := d.section(run)
	if s == nil {
		return ""
	}
	said := fmt.Sprintf("Run %d, %s, %s of pipe to the far end: %s, jets %s", run, s.run.Direction,
		d.site.Units.Length(s.run.End-s.run.Entry), d.when(s.from, s.to), d.site.Units.Volume(s.run.Water))
	if s.kept {
		said += ", kept by hand (K)"
	}
	return said
}

// when says from when to when something lasts, and how long.
func (d *day) when(from, to time.Duration) string {
	return export.Clock(d.site, from) + " to " + export.Clock(d.site, to) + ", " + export.Spent(to-from)
}

// allWords sum the day up and explain the letters of its blocks.
func (d *day) allWords() string {
	var letters []string
	for i := range manners {
		m := &manners[i]
		for j := range d.plan.Day {
			if d.plan.Day[j].Kind == m.kind {
				if m.letter != "" {
					letters = append(letters, m.letter+" "+m.says)
				}
				break
			}
		}
	}
	return fmt.Sprintf("%s, %s.  %s", unit.Count(len(d.runs), "run"), d.when(0, d.ends), strings.Join(letters, ",  "))
}
