package export

import (
	"slices"
	"strconv"
	"time"

	"linemap/internal/export/chart"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// work is what came of a job: its visits, and what they did to each pipe.
type work struct {
	*wording
	plan   *route.Plan
	visits []site.Visit // of this job, the earliest first
	pipes  []pipeWork   // in the order of the drawing
}

// pipeWork is what became of a pipe of the job.
type pipeWork struct {
	id     network.PipeID
	length unit.Length
	// below and above are what is clean from its two ends, by the flow.
	below, above unit.Length
	// planned says that a run was to clean it; last is the last result of one
	// that was.
	planned bool
	last    *site.RunResult
	gap     *route.Shortfall // why no run could, nil where one could
}

// cleaned is how much of the pipe is clean, left what of it is not.
func (p *pipeWork) cleaned() unit.Length { return min(p.below+p.above, p.length) }
func (p *pipeWork) left() unit.Length    { return p.length - p.cleaned() }

// rest is the least length that counts as left.
var rest = unit.Metres(0.01)

// longestJob is how many days lie between the first visit of a job and its last
// at most.
const longestJob = 14

// jobVisits picks the visits that make up the job in hand: the last one, and
// those before it from the day of the job on. They are none where there was no
// visit.
func jobVisits(s *site.Site) []site.Visit {
	n := len(s.Visits)
	if n == 0 {
		return nil
	}
	first := n - 1
	for first > 0 && s.Job.Date != "" && s.Visits[first-1].Date >= s.Job.Date &&
		daysBetween(s.Visits[first-1].Date, s.Visits[n-1].Date) <= longestJob {
		first--
	}
	return s.Visits[first:]
}

// daysBetween counts the days from one date to another.
func daysBetween(from, to string) int {
	a, errA := time.Parse(time.DateOnly, from)
	b, errB := time.Parse(time.DateOnly, to)
	if errA != nil || errB != nil {
		return 0
	}
	const hours = 24
	return int(b.Sub(a).Hours()/hours + 0.5)
}

// newWork adds up the visits of a job pipe by pipe.
func newWork(w *wording, p *route.Plan) *work {
	out := &work{wording: w, plan: p, visits: jobVisits(w.site)}
	at := map[network.PipeID]*pipeWork{}
	for i := range w.site.Network.Pipes {
		if pipe := &w.site.Network.Pipes[i]; !pipe.OutOfJob {
			out.pipes = append(out.pipes, pipeWork{id: pipe.ID, length: w.graph.Length(i)})
		}
	}
	for i := range out.pipes {
		at[out.pipes[i].id] = &out.pipes[i]
	}
	for _, run := range p.Runs() {
		for _, leg := range run.Path {
			if pipe := at[leg.Pipe]; pipe != nil && leg.Cleaned {
				pipe.planned = true
			}
		}
	}
	for i := range p.Shortfalls {
		if pipe := at[p.Shortfalls[i].Pipe]; pipe != nil {
			pipe.gap = &p.Shortfalls[i]
		}
	}
	for i := range out.visits {
		for k := range out.visits[i].Runs {
			r := &out.visits[i].Runs[k]
			for _, done := range r.Pipes {
				if pipe := at[done.Pipe]; pipe != nil {
					pipe.take(r, done)
				}
			}
		}
	}
	return out
}

// take adds what a run did.
func (p *pipeWork) take(r *site.RunResult, done site.PipeResult) {
	p.planned, p.last, p.length = true, r, done.Length
	if r.Run.Downstream {
		p.above = max(p.above, done.Cleaned)
	} else {
		p.below = max(p.below, done.Cleaned)
	}
}

// undone lists the pipes of which something is left.
func (w *work) undone() []*pipeWork {
	var all []*pipeWork
	for i := range w.pipes {
		if p := &w.pipes[i]; p.left() > rest {
			all = append(all, p)
		}
	}
	return all
}

// sums adds up what was planned, what of it is clean, and what no run could
// reach.
func (w *work) sums() (planned, cleaned, beyond unit.Length) {
	for i := range w.pipes {
		p := &w.pipes[i]
		if p.planned {
			planned += p.length
		} else {
			beyond += p.left()
		}
		cleaned += p.cleaned()
	}
	return planned, cleaned, beyond
}

// results lists the results of the job's visits in order.
func (w *work) results() []*site.RunResult {
	var all []*site.RunResult
	for i := range w.visits {
		for k := range w.visits[i].Runs {
			all = append(all, &w.visits[i].Runs[k])
		}
	}
	return all
}

// asCleaned is the plan that the work amounts to: its runs clean what they
// cleaned, and what is left is its shortfalls. Why says why it is left.
func (w *work) asCleaned() (*route.Plan, *chart.Done) {
	p, done := &route.Plan{}, &chart.Done{Shares: map[network.PipeID]chart.Shares{}, Why: map[network.PipeID]string{}}
	for _, r := range w.results() {
		run := route.Run{Number: r.Number, Access: r.Run.Access, Direction: route.Upstream}
		if r.Run.Downstream {
			run.Direction = route.Downstream
		}
		var at unit.Length
		for _, pipe := range r.Pipes {
			if pipe.Cleaned > 0 {
				run.Path = append(run.Path, route.Leg{Pipe: pipe.Pipe, From: at, To: at + pipe.Cleaned, Cleaned: true})
				at += pipe.Cleaned
			}
		}
		if len(run.Path) == 0 {
			continue
		}
		last := len(p.Blocks) - 1
		if last < 0 || p.Blocks[last].Spot != r.Run.Spot || p.Blocks[last].Hose != r.Run.Hose {
			p.Blocks = append(p.Blocks, route.Block{Spot: r.Run.Spot, Hose: r.Run.Hose})
			last++
		}
		p.Blocks[last].Runs = append(p.Blocks[last].Runs, run)
	}
	for i := range w.pipes {
		if pipe := &w.pipes[i]; pipe.length > 0 {
			done.Shares[pipe.id] = chart.Shares{
				FromBelow: float64(pipe.below / pipe.length), FromAbove: float64(pipe.above / pipe.length),
			}
		}
	}
	for _, pipe := range w.undone() {
		why, cure := w.reason(pipe)
		p.Shortfalls = append(p.Shortfalls, route.Shortfall{Pipe: pipe.id, Name: w.pipe(pipe.id), Length: pipe.left()})
		done.Why[pipe.id] = sentences(why, cure)
	}
	return p, done
}

// reason says why some of a pipe is left, and what to do about it.
func (w *work) reason(p *pipeWork) (why, cure string) {
	r := p.last
	switch {
	case r == nil && p.gap != nil:
		return sentence(p.gap.Why(w.sys)), sentence(p.gap.Cure.Say(w.sys))
	case r == nil:
		return "No result was written down.", "Write it down, or clean it on the next visit."
	}
	if why = w.turnedBack(r); r.Found != "" {
		why += " Found: " + sentence(OneLine(r.Found))
	}
	switch {
	case r.Condition == site.RepairCondition:
		return why, "Repair the pipe, then clean it."
	case r.Reached == 0:
		return why, "Make the run on the next visit."
	}
	return why, "Look into the pipe with a camera from there, then clean the rest."
}

// turnedBack says how far a run got.
func (w *work) turnedBack(r *site.RunResult) string {
	if r.Reached == 0 {
		return "Run " + strconv.Itoa(r.Number) + " was not made."
	}
	return "Run " + strconv.Itoa(r.Number) + " turned back at " + w.sys.Footage(r.Reached) + " of " + w.sys.Footage(r.Planned) + "."
}

// photos lists the photos of the job in order, each once.
func (w *work) photos() []photo {
	var all []photo
	for _, r := range w.results() {
		for _, name := range r.Photos {
			if !slices.ContainsFunc(all, func(p photo) bool { return p.file == name }) {
				all = append(all, photo{file: name, Caption: "Run " + strconv.Itoa(r.Number) + ", " + w.node(r.Run.Access) + ": " + name})
			}
		}
	}
	return all
}
