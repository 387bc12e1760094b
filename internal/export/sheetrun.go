package export

import (
	"strconv"

	"linemap/internal/route"
	"linemap/internal/unit"
)

// The facts of a run that need more room on the page than the others.
const (
	factHose = "Hose"
	factTank = "Tank before, after"
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
		{"Start", d.clock},
		{factHose, w.hoseName(hose)},
		{"Lay to access", w.sys.Footage(r.Lay)},
		{"Bends spent", w.bends(r.Bends, hose)},
		{"Water", w.sys.Volume(r.Water)},
		{"Time", unit.Minutes(r.Minutes)},
	}
	if d.jets > 0 {
		sr.Facts = append(sr.Facts, fact{factTank, w.sys.Volume(d.tank[0]) + ", " + w.sys.Volume(d.tank[1])})
	}
	for i := range r.Passes {
		sr.Passes = append(sr.Passes, w.pass(&r.Passes[i]))
	}
	return sr
}

// bends writes what a run spends of its hose's bend allowance, in quarter
// bends.
func (w *wording) bends(spent float64, hose string) string {
	say := strconv.FormatFloat(spent, 'f', 1, 64)
	if h := w.hose(hose); h != nil {
		say += " of " + strconv.FormatFloat(h.Bends, 'f', 1, 64)
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
	opening := wayRow{Kind: wayOpening, At: w.sys.Footage(r.Lay), What: "Opening " + w.node(r.Access)}
	if back := r.Lay + markLength(); back < r.End {
		opening.What += ". On the way back stop the reel at " + w.sys.Footage(back) + ", the " + mark(w.sys) + " mark"
	}
	rows := []wayRow{opening}
	next := 0
	fittings := func(upTo unit.Length, last bool) {
		for ; next < len(r.Fittings) && (last || r.Fittings[next].At <= upTo); next++ {
			rows = append(rows, w.fitting(&r.Fittings[next]))
		}
	}
	for _, leg := range r.Path {
		fittings(leg.From, false)
		rows = append(rows, w.leg(leg))
	}
	fittings(r.End, true)
	return append(rows, wayRow{Kind: wayEnd, At: w.sys.Footage(r.End), What: "Far end" + w.farEnd(r)})
}

// fitting words one fitting.
func (w *wording) fitting(f *route.Fitting) wayRow {
	row := wayRow{Kind: wayFitting, At: w.sys.Footage(f.At), What: capital(f.What), Turn: turn(f.Turn, f.Side), Confirm: f.Confirm}
	if f.Node != "" {
		if name := w.node(f.Node); name != "" {
			row.What += ", " + name
		}
	}
	return row
}

// turn writes a turn and its side: "45° left".
func turn(a unit.Angle, side string) string {
	deg := strconv.FormatFloat(a.Degrees(), 'f', 1, 64)
	if s, ok := trimZero(deg); ok {
		deg = s
	}
	if deg == "0" {
		return side
	}
	if side == "" {
		return deg + "°"
	}
	return deg + "° " + side
}

// trimZero drops a decimal that is nought.
func trimZero(s string) (string, bool) {
	if n := len(s) - 2; n > 0 && s[n:] == ".0" {
		return s[:n], true
	}
	return s, false
}

// leg words one pipe of the way.
func (w *wording) leg(l route.Leg) wayRow {
	row := wayRow{Kind: wayPipe, At: w.sys.Footage(l.From), Cleaned: l.Cleaned}
	row.What = list(capital(w.thePipe(l.Pipe)), w.pipeSpec(l.Pipe))
	p := w.pipeData(l.Pipe)
	switch {
	case p != nil && l.Cleaned:
		row.What += "; clean, " + w.deposit(p)
	case l.Cleaned:
		row.What += "; clean"
	default:
		row.What += "; pass through"
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
