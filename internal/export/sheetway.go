package export

import (
	"math"
	"strings"

	"linemap/internal/export/linestrip"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// way lists what the hose meets, in travel order: the opening, every fitting
// with the pipe that begins there, the far end, and between them where the
// nozzle is when the warning mark comes out. A pipe that begins where no fitting
// is has a row of its own.
func (w *wording) way(r *route.Run) []wayRow {
	seen := map[network.NodeID]bool{}
	rows := []wayRow{{
		Kind: wayOpening, At: w.sys.Footage(r.Lay), What: "Opening " + w.node(r.Access),
		Note: w.placeNote(r.Access, seen), reading: r.Lay,
	}}
	at := r.Lay // the reading of the last row
	add := func(row wayRow, reading unit.Length) {
		row.At, row.reading = w.sys.Footage(reading), reading
		rows, at = append(rows, row), reading
	}
	next, before := 0, network.PipeID("")
	fittings := func(upTo unit.Length) {
		for ; next < len(r.Fittings) && r.Fittings[next].At <= upTo; next++ {
			row := w.fitting(&r.Fittings[next], before)
			row.Note = w.placeNote(r.Fittings[next].Node, seen)
			add(row, r.Fittings[next].At)
		}
	}
	for i, leg := range r.Path {
		fittings(leg.From)
		if last := &rows[len(rows)-1]; last.Pipe != "" || math.Abs(float64(leg.From-at)) > samePlace {
			what := "Next pipe"
			if i == 0 {
				what = "First pipe"
			}
			add(wayRow{Kind: wayPipe, What: what}, leg.From)
		}
		last := &rows[len(rows)-1]
		last.Pipe, last.Cleaned = w.leg(leg), leg.Cleaned
		if p := w.pipeData(leg.Pipe); p != nil {
			last.Note = strings.TrimSpace(last.Note + " " + runNote(p.Note))
		}
		before = leg.Pipe
	}
	fittings(unit.Length(math.Inf(1)))
	row := wayRow{Kind: wayEnd, What: "Far end"}
	if end, ok := w.farEnd(r); ok {
		row.What += ", " + w.place(end)
		row.Note = w.placeNote(end, seen)
	}
	add(row, r.End)
	rows = w.stopRow(rows, r)
	w.nearRows(rows, r)
	return rows
}

// samePlace is the distance in metres below which two readings are one place.
const samePlace = 1e-6

// fitting words one fitting that the hose meets on leaving a pipe.
func (w *wording) fitting(f *route.Fitting, before network.PipeID) wayRow {
	row := wayRow{
		Kind: wayFitting, What: capital(f.What), Turn: turn(f.Turn, f.Side), Confirm: f.Confirm,
		move: move(f), turn: f.Turn,
	}
	i, ok := w.graph.NodeIndex(f.Node)
	if !ok {
		return row
	}
	node := &w.site.Network.Nodes[i]
	from, to := w.pipeData(before), w.pipeData(f.Pipe)
	if node.Kind == network.KindReducer && from != nil && to != nil {
		row.What = "Reducer, " + from.Size.In(w.sys) + " to " + to.Size.In(w.sys)
		row.move = linestrip.Narrow
		if to.Size > from.Size {
			row.move = linestrip.Widen
		}
	}
	if !strings.Contains(row.What, node.Label) {
		row.What += ", " + node.Label
	}
	return row
}

// turn writes a turn and its side: "45° left".
func turn(a unit.Angle, side string) string {
	deg := figure(a.Degrees(), 1)
	if deg == "0" {
		return side
	}
	if side == "" {
		return deg + "°"
	}
	return deg + "° " + side
}

// leg says what to do in one pipe of the way: "Clean G-5: 4 in cast iron,
// heavy grease", "Pass G-4: 4 in cast iron".
func (w *wording) leg(l route.Leg) string {
	say := "Pass " + w.pipe(l.Pipe)
	if l.Cleaned {
		say = "Clean " + w.pipe(l.Pipe)
	}
	p := w.pipeData(l.Pipe)
	if p == nil {
		return say
	}
	say += ": " + p.Size.In(w.sys) + " " + w.material(p.Material)
	if l.Cleaned {
		say += ", " + w.deposit(p)
	}
	if p.Fragile {
		say += ", fragile"
	}
	return say
}

// farEnd is the node at which a run turns back.
func (w *wording) farEnd(r *route.Run) (network.NodeID, bool) {
	if len(r.Path) == 0 {
		return "", false
	}
	i, ok := w.graph.PipeIndex(r.Path[len(r.Path)-1].Pipe)
	if !ok {
		return "", false
	}
	end := w.graph.Up[i]
	if r.Direction == route.Downstream {
		end = w.graph.Down[i]
	}
	return w.site.Network.Nodes[end].ID, true
}
