package export

import (
	"linemap/internal/export/linestrip"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// sheet is what stands on a run sheet, in reading order and in finished words;
// where it stands on the page is the business of sheetpage.go. Every string is
// already in the paper's units.
type sheet struct {
	Title    string
	Revision string
	When     []fact // date and start
	Job      []fact // customer, address, contact
	Figures  []fact // the day in a handful of numbers
	Reached  string // the name of the blank for the reading reached
	Standing string // how good the plan is proved to be
	Left     string // how much pipe it does not clean
	Rig      []fact
	Hoses    []load
	Nozzles  []load
	Stops    []stop
	Minutes  []fact // by kind, the total last
	Checks   []CheckList
	Cautions []Caution
	Blocks   []sheetBlock
	Whys     []whyRow
	Gaps     []gap
	Notes    []fact

	sys unit.System
}

// fact is a figure with its name.
type fact struct{ Name, Say string }

// load is a thing to bring, with what it is and the runs that need it.
type load struct{ Name, What, Runs string }

// stop is one block of the day on the front page.
type stop struct {
	SetUp             int // as on the map
	Clock, Spot, Hose string
	Runs, Water       string
	Place             string // the water again, traffic and note, in sentences
}

// step is something the crew does besides running hose.
type step struct{ Clock, Say, Takes string }

// sheetBlock is one stretch of the day with one spot and one hose.
type sheetBlock struct {
	SetUp  int // as on the map
	Spot   string
	Hose   string
	Facts  []fact
	Before []step
	Runs   []sheetRun
	After  []step
}

// sheetRun is one run.
type sheetRun struct {
	Number     int
	Access     string
	Opening    string // kind, size, indoors or outdoors
	Where      string // room and level
	Downstream bool
	End        string // the reading at the far end
	Facts      []fact
	Before     []step
	Passes     []sheetPass
	Way        []wayRow
	Warnings   []string
	line       linestrip.Line // the run as it is drawn
}

// sheetPass is one nozzle's trip.
type sheetPass struct {
	Kind, Nozzle, Setting, AtNozzle, Thrust string
	TurnAt, Strokes, Pulls                  string
	Minutes                                 string
}

// wayKind tells what a row of the way is.
type wayKind int

// The kinds of row: the opening, a pipe that begins where no fitting is, a
// fitting to feel, the far end, where the nozzle is when the warning mark comes
// out.
const (
	wayOpening wayKind = iota
	wayPipe
	wayFitting
	wayEnd
	wayStop
)

// wayRow is what the hose meets at a reading.
type wayRow struct {
	Kind    wayKind
	At      string // hose-counter reading
	What    string
	Turn    string // "45° left", "" for straight
	Confirm bool   // a locator must confirm it
	Pipe    string // the pipe that begins here, "" for none
	Cleaned bool   // that pipe is to be cleaned, not only passed
	Note    string // the document's own words on this place
	Near    string // fixtures near this place that may blow back

	reading unit.Length
	move    linestrip.Move
	turn    unit.Angle
}

// gap is a pipe of the job that stays as it is.
type gap struct {
	Pipe, What, Length string
	Why, Cure          string
}

// newSheet words a plan of a site for the crew.
func newSheet(s *site.Site, t *site.Tables, p *route.Plan, opt Options) *sheet {
	g, _ := network.Trace(&s.Network)
	w := &wording{sys: opt.For(s).Units, site: s, tables: t, graph: g}
	sh := &sheet{
		Title:    title(s),
		Revision: s.Job.Revision,
		When:     w.when(),
		Job:      w.job(),
		Figures:  w.figures(p),
		Standing: w.standing(p),
		Left:     w.left(p),
		Reached:  capital(footage(w.sys)) + " reached",
		Rig:      w.rig(),
		Hoses:    w.hoses(p),
		Nozzles:  w.nozzles(p),
		Stops:    w.stops(p),
		Minutes:  w.minutes(p),
		Checks:   CheckLists(&s.Rig, w.sys),
		Cautions: Cautions(w.sys),
		Whys:     w.whys(p),
		Notes:    w.notes(p),
		sys:      w.sys,
	}
	diary, setUps := w.diary(p), setUps(p)
	for i := range p.Blocks {
		sh.Blocks = append(sh.Blocks, w.block(p, i, setUps[i], diary))
	}
	for i := range p.Shortfalls {
		sh.Gaps = append(sh.Gaps, w.gap(&p.Shortfalls[i]))
	}
	return sh
}

// title is the job's title, or words that stand for it.
func title(s *site.Site) string {
	if s.Job.Title == "" {
		return "Untitled job"
	}
	return s.Job.Title
}
