package export

import (
	"slices"
	"strconv"

	"linemap/internal/export/chart"
	"linemap/internal/export/linestrip"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// line is a run as its strip draws it.
func (w *wording) line(r *route.Run) linestrip.Line {
	l := linestrip.Line{End: r.End, Far: true, Lay: r.Lay, Step: unit.Feet(10)}
	if w.sys == unit.Metric {
		l.Step = unit.Metres(5)
	}
	for _, leg := range r.Path {
		pipe := linestrip.Pipe{From: leg.From, To: leg.To, Cleaned: leg.Cleaned}
		if p := w.pipeData(leg.Pipe); p != nil {
			pipe.Pen = chart.PipePen(p)
			if leg.Cleaned {
				pipe.Hatch = hatch(p)
			}
		}
		l.Pipes = append(l.Pipes, pipe)
	}
	for _, e := range route.BlowBack(w.graph, r) {
		l.Near = append(l.Near, e.At)
	}
	for _, f := range r.Flags {
		switch f.Kind {
		case route.FlagFragile, route.FlagSmallMargin, route.FlagStack:
			l.Warn = append(l.Warn, f.At)
		}
	}
	return l
}

// hatch shows a pipe's deposit: the worse the closer, roots as crosses.
func hatch(p *network.Pipe) linestrip.Hatch {
	if p.Deposit == "" || p.Deposit == network.NoDeposit {
		return linestrip.Hatch{}
	}
	every := map[network.Severity]float64{network.Light: 2.6, network.Heavy: 1.1}[p.Severity]
	if every == 0 {
		every = 1.8
	}
	return linestrip.Hatch{Every: every, Cross: p.Deposit == network.Roots}
}

// move is what the hose does at a fitting. A turn without a side is the one out
// of the riser.
func move(f *route.Fitting) linestrip.Move {
	switch {
	case f.Side == "left":
		return linestrip.ToLeft
	case f.Side == "right":
		return linestrip.ToRight
	case f.Side == "up":
		return linestrip.Up
	case f.Side == "down":
		return linestrip.Down
	case f.Turn > 0:
		return linestrip.Enter
	}
	return linestrip.Ahead
}

// stopRow puts the place of the nozzle at which the warning mark comes out of
// the opening among the rows of a run that goes in that far.
func (w *wording) stopRow(rows []wayRow, r *route.Run) []wayRow {
	if w.markStaysOut(r) {
		return rows
	}
	at := r.Lay + markLength()
	i := slices.IndexFunc(rows, func(row wayRow) bool { return row.reading > at })
	if i < 0 {
		i = len(rows)
	}
	return slices.Insert(rows, i, wayRow{
		Kind: wayStop, At: w.sys.Footage(at), reading: at,
		What: "Way back: " + mark(w.sys) + " mark out",
	})
}

// nearRows says at the rows of a run which fixtures near them may blow back.
func (w *wording) nearRows(rows []wayRow, r *route.Run) {
	near := map[int][]string{}
	for _, e := range route.BlowBack(w.graph, r) {
		at := 0
		for i := range rows {
			if rows[i].Kind != wayStop && rows[i].reading <= e.At+samePlace {
				at = i
			}
		}
		near[at] = append(near[at], w.place(e.Node))
	}
	for i, names := range near {
		rows[i].Near = list(names...)
	}
}

// mostExposed is how many fixtures a warning names; the strip names them all.
const mostExposed = 10

// exposed names the fixtures that a run may blow back through, "" for none.
func (w *wording) exposed(r *route.Run) string {
	var names []string
	times := map[string]int{}
	for _, e := range route.BlowBack(w.graph, r) {
		name := w.place(e.Node)
		if times[name]++; times[name] == 1 {
			names = append(names, name)
		}
	}
	more := max(0, len(names)-mostExposed)
	names = names[:len(names)-more]
	for i, name := range names {
		if times[name] > 1 {
			names[i] = counted(times[name], name)
		}
	}
	if more > 0 {
		names = append(names, strconv.Itoa(more)+" more on the strip")
	}
	return list(names...)
}
