package export

import (
	"strconv"
	"strings"

	"linemap/internal/route"
)

// The facts of a run that are no readings.
const (
	factStart = "Start"
	factHose  = "Hose"
	factBends = "90° bends"
	factWater = "Water"
	factTime  = "Time"
	factTank  = "Tank before, after"
)

// block words one block of the day.
func (w *wording) block(p *route.Plan, i, setUp int, d *diary) sheetBlock {
	b := &p.Blocks[i]
	sb := sheetBlock{
		SetUp: setUp, Spot: w.spotName(b.Spot), Hose: w.hoseName(b.Hose),
		Before: d.before[i], After: d.after[i],
	}
	if s := w.spot(b.Spot); s != nil {
		sb.Facts = append(sb.Facts, fact{"Water", w.inflow(b.Spot)})
		if say := sentences(traffic(s.Traffic), s.Note, w.hazards(b)); say != "" {
			sb.Facts = append(sb.Facts, fact{"Place", say})
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
	what, where := w.opening(r.Access)
	sr := sheetRun{
		Number: r.Number, Access: w.node(r.Access), Opening: what, Where: where,
		Downstream: r.Direction == route.Downstream, End: w.sys.Footage(r.End),
		Before: d.waits, Way: w.way(r), Warnings: w.warnings(r), line: w.line(r),
	}
	start := fact{factStart, d.clock}
	if at, day, later := strings.Cut(d.clock, ", "); later {
		start = fact{factStart + ", " + day, at}
	}
	sr.Facts = []fact{
		start,
		{factHose, w.hoseName(hose)},
		{"Lay to access", w.sys.Footage(r.Lay)},
		{mark(w.sys) + " mark", w.stopMark(r)},
		{factBends, w.bends(r.Bends, hose)},
		{factWater, w.sys.Volume(r.Water)},
		{factTime, spent(r.Minutes)},
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
// comes out of the opening and the reel must stop; where the hose never goes in
// that far, the mark stays out.
func (w *wording) stopMark(r *route.Run) string {
	if w.markStaysOut(r) {
		return "stays out"
	}
	return w.sys.Footage(r.Lay + markLength())
}

// markStaysOut tells whether a run is too short for the hose's warning mark to
// go into the opening.
func (w *wording) markStaysOut(r *route.Run) bool { return r.Lay+markLength() >= r.End }

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
		Pulls: strconv.Itoa(p.Pulls), Minutes: spent(p.Minutes),
	}
	if p.Strokes > 0 {
		sp.Strokes = strconv.Itoa(p.Strokes)
	}
	return sp
}
