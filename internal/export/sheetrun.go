package export

import (
	"strconv"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// The facts of a run that are no readings.
const (
	factStart = "Start"
	factHose  = "Hose"
	factBends = "Bends"
	factWater = "Water"
	factTime  = "Time"
	factTank  = "Tank before, after"
)

// block words one block of the day.
func (w *wording) block(p *route.Plan, i int, d *diary) sheetBlock {
	b := &p.Blocks[i]
	sb := sheetBlock{
		Order: i + 1, Spot: w.spotName(b.Spot), Hose: w.hoseName(b.Hose),
		Before: d.before[i], After: d.after[i],
	}
	if s := w.spot(b.Spot); s != nil {
		sb.Facts = append(sb.Facts, fact{"Water", w.inflow(b.Spot)})
		if say := list(traffic(s.Traffic), s.Note); say != "" {
			sb.Facts = append(sb.Facts, fact{"Spot", sentence(capital(say))})
		}
	}
	if h := w.hose(b.Hose); h != nil {
		sb.Hose += ", leave " + w.sys.Length(h.Reserve) + " on the reel"
	}
	for j := range b.Runs {
		sb.Runs = append(sb.Runs, w.run(&b.Runs[j], b.Hose, d.run[b.Runs[j].Number]))
	}
	return sb
}

// run words one run.
func (w *wording) run(r *route.Run, hose string, d *runDiary) sheetRun {
	if d == nil {
		d = &runDiary{}
	}
	sr := sheetRun{
		Number: r.Number, Access: w.node(r.Access), Opening: w.opening(r.Access),
		Downstream: r.Direction == route.Downstream, End: w.sys.Footage(r.End),
		Before: d.waits, Way: w.way(r), Warnings: w.warnings(r), Notes: w.runNotes(r),
	}
	sr.Facts = []fact{
		{factStart, d.clock},
		{factHose, w.hoseName(hose)},
		{"Lay to access", w.sys.Footage(r.Lay)},
		{mark(w.sys) + " mark", w.stopMark(r)},
		{factBends, w.bends(r.Bends, hose)},
		{factWater, w.sys.Volume(r.Water)},
		{factTime, unit.Minutes(r.Minutes)},
	}
	if d.jets > 0 {
		sr.Facts = append(sr.Facts, fact{factTank, w.sys.Volume(d.tank[0]) + ", " + w.sys.Volume(d.tank[1])})
	}
	for i := range r.Passes {
		sr.Passes = append(sr.Passes, w.pass(&r.Passes[i]))
	}
	return sr
}

// stopMark is the reading on the way back at which the hose's warning mark
// comes out of the opening and the reel must stop, "none" where the hose never
// goes in that far.
func (w *wording) stopMark(r *route.Run) string {
	if back := r.Lay + markLength(); back < r.End {
		return w.sys.Footage(back)
	}
	return "none"
}

// bends writes what a run spends of its hose's bend allowance, in quarter
// bends.
func (w *wording) bends(spent float64, hose string) string {
	say := figure(spent, 1)
	if h := w.hose(hose); h != nil {
		say += " of " + figure(h.Bends, 1)
	}
	return say
}

// pass words one pass.
func (w *wording) pass(p *route.Pass) sheetPass {
	sp := sheetPass{
		Kind: capital(word(passWords, p.Kind)), Nozzle: w.nozzleName(p.Nozzle),
		Setting: w.sys.Pressure(p.Setting), AtNozzle: w.sys.Pressure(p.Operating.Nozzle),
		Thrust: w.sys.Force(p.Thrust), TurnAt: w.sys.Footage(p.End),
		Pulls: strconv.Itoa(p.Pulls), Minutes: unit.Minutes(p.Minutes), Water: w.sys.Volume(p.Water),
	}
	if p.Strokes > 0 {
		sp.Strokes = strconv.Itoa(p.Strokes)
	}
	return sp
}

// way lists what the hose meets, in travel order: the opening, then every pipe
// and every fitting at its reading, then the far end.
func (w *wording) way(r *route.Run) []wayRow {
	rows := []wayRow{{Kind: wayOpening, At: w.sys.Footage(r.Lay), What: "Opening " + w.node(r.Access)}}
	next, before := 0, network.PipeID("")
	fittings := func(upTo unit.Length, last bool) {
		for ; next < len(r.Fittings) && (last || r.Fittings[next].At <= upTo); next++ {
			rows = append(rows, w.fitting(&r.Fittings[next], before))
		}
	}
	for _, leg := range r.Path {
		fittings(leg.From, false)
		rows = append(rows, w.leg(leg))
		before = leg.Pipe
	}
	fittings(r.End, true)
	return append(rows, wayRow{Kind: wayEnd, At: w.sys.Footage(r.End), What: "Far end" + w.farEnd(r)})
}

// fitting words one fitting that the hose meets on leaving a pipe.
func (w *wording) fitting(f *route.Fitting, before network.PipeID) wayRow {
	row := wayRow{Kind: wayFitting, At: w.sys.Footage(f.At), What: capital(f.What), Turn: turn(f.Turn, f.Side), Confirm: f.Confirm}
	i, ok := w.graph.NodeIndex(f.Node)
	if !ok {
		return row
	}
	node := &w.site.Network.Nodes[i]
	from, to := w.pipeData(before), w.pipeData(f.Pipe)
	if node.Kind == network.KindReducer && from != nil && to != nil {
		row.What = "Reducer, " + from.Size.In(w.sys) + " to " + to.Size.In(w.sys)
	}
	row.What = list(row.What, node.Label)
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

// leg words one pipe of the way.
func (w *wording) leg(l route.Leg) wayRow {
	row := wayRow{Kind: wayPipe, At: w.sys.Footage(l.From), Cleaned: l.Cleaned}
	what := w.pipeSpec(l.Pipe)
	row.What = "Pass through "
	if l.Cleaned {
		row.What = "Clean "
		if p := w.pipeData(l.Pipe); p != nil {
			what = list(what, w.deposit(p))
		}
	}
	row.What += w.pipe(l.Pipe)
	if what != "" {
		row.What += ": " + what
	}
	return row
}

// farEnd names the node at which the run turns back.
func (w *wording) farEnd(r *route.Run) string {
	if len(r.Path) == 0 {
		return ""
	}
	i, ok := w.graph.PipeIndex(r.Path[len(r.Path)-1].Pipe)
	if !ok {
		return ""
	}
	end := w.graph.Up[i]
	if r.Direction == route.Downstream {
		end = w.graph.Down[i]
	}
	return ", " + w.node(w.site.Network.Nodes[end].ID)
}
