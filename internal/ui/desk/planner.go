package desk

import (
	"context"
	"fmt"
	"log"
	"runtime/debug"
	"time"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
)

// settle is how long the sketch must rest before it is planned: typing and
// nudging in a row are planned once.
const settle = 25 * time.Millisecond

// Planning is what is known of the plan.
type Planning struct {
	// Plan is the last plan, nil before the first, and Site the copy of the
	// site that it was made for; neither is ever changed.
	Plan *route.Plan
	Site *site.Site
	// Revision is that of the site that was planned. Stale says that the sketch
	// has changed since.
	Revision int
	Stale    bool
	// Running says that the planner is at work, Since when; Progress is its last
	// news, nil before the first.
	Running  bool
	Since    time.Time
	Progress *route.Progress
	// Err says why there is no plan of the sketch as it stands.
	Err error
}

// planner works out findings and plan in the background.
type planner struct {
	state    Planning
	findings []network.Finding
	of       int // the revision that the findings are of
	run      int // counts the runs, so that late news of an older one is dropped
	// finish makes the run in force come up with the best plan so far; giveUp
	// ends it for nothing.
	finish, giveUp context.CancelFunc
}

// forget drops what is known of another site.
func (p *planner) forget() {
	p.state, p.findings = Planning{}, nil
}

// Planning is what is known of the plan.
func (d *Desk) Planning() Planning {
	state := d.planner.state
	state.Stale = state.Plan != nil && state.Revision != d.revision
	return state
}

// Findings are what is wrong, or looks wrong, with the sketch, the worst first;
// current is false where the sketch has changed since they were found.
func (d *Desk) Findings() (all []network.Finding, current bool) {
	return d.planner.findings, d.planner.of == d.revision
}

// StopPlanning makes the planner come up with the best plan found so far.
func (d *Desk) StopPlanning() {
	if d.planner.finish != nil {
		d.planner.finish()
	}
}

// Replan plans the sketch as it stands, again if it was planned.
func (d *Desk) Replan() {
	d.replan()
	d.tell(Planned)
}

// replan starts the planner on a copy of the site; a run on an older one is
// given up.
func (d *Desk) replan() {
	p := &d.planner
	if p.giveUp != nil {
		p.giveUp()
	}
	p.run++
	run, revision, s := p.run, d.revision, d.Snapshot()
	wanted, giveUp := context.WithCancel(context.Background())
	ctx, finish := context.WithCancel(wanted)
	p.finish, p.giveUp = finish, giveUp
	p.state.Running, p.state.Since, p.state.Progress, p.state.Err = true, time.Now(), nil, nil
	// news hands something to the desk if it still waits for this run.
	news := func(c Change, do func()) {
		d.post(func() {
			if p.run == run {
				do()
				d.tell(c)
			}
		})
	}
	go func() {
		defer giveUp()
		select {
		case <-time.After(settle):
		case <-wanted.Done():
			return
		}
		// The news is read later, by the desk's own goroutine: it keeps an error of
		// its own.
		findings, checkErr := guarded(s.Findings)
		news(Checked, func() {
			p.findings, p.of = findings, revision
			p.state.Err = checkErr
		})
		plan, err := guarded(func() (*route.Plan, error) {
			return route.Solve(ctx, s, d.tables, route.Options{Progress: func(g route.Progress) {
				news(Planned, func() { p.state.Progress = &g })
			}})
		})
		news(Planned, func() {
			p.state.Running, p.state.Err = false, err
			if err == nil {
				p.state.Plan, p.state.Site, p.state.Revision = plan, s, revision
			}
		})
	}()
}

// guarded calls do; a fault in it becomes an error, so that a site the planner
// cannot digest costs the plan and not the sketch. Where it happened is logged:
// what is shown of the error has one line.
func guarded[T any](do func() (T, error)) (v T, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("a fault in the planner, please report it: %v", fault)
			log.Printf("%v\n%s", err, debug.Stack())
		}
	}()
	return do()
}
