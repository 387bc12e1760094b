package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// planJob is what the flags of plan ask for.
type planJob struct {
	dir     string
	json    bool
	options export.Options
}

func planCommand() command {
	job := &planJob{}
	return command{
		name:  "plan",
		args:  "SITE --out DIR [FLAGS]",
		short: "plan the cleaning and write its papers",
		long: `Plans the cleaning of a site and writes its papers into a folder: the run sheet
and the map as PDF, the map as SVG, the plan as CSV and JSON. It prints what the
day takes, what cannot be cleaned and why, and the names of the papers.

A long search tells on stderr how it gets on. Ctrl-C stops it: the best plan
found so far is written all the same, and a second Ctrl-C ends the program.`,
		flags: job.flags,
		run:   job.run,
	}
}

func (job *planJob) flags(fs *flag.FlagSet) {
	fs.StringVar(&job.dir, "out", "", "write the papers into `DIR`, made where it is missing; needed unless --json")
	fs.BoolVar(&job.json, "json", false, "print the plan as JSON, and nothing else, on stdout")
	paperFlags(fs, &job.options)
}

// paperFlags adds the flags of every command that writes papers.
func paperFlags(fs *flag.FlagSet, opt *export.Options) {
	fs.Func("paper", "print on `SIZE`, letter or a4, instead of the site's own", func(v string) error {
		switch p := site.Paper(v); p {
		case site.Letter, site.A4:
			opt.Paper = p
			return nil
		}
		return errors.New("choose letter or a4")
	})
	fs.Func("units", "print in `SYSTEM`, us or metric, instead of the site's own", func(v string) (err error) {
		opt.Units, err = unit.ParseSystem(v)
		return err
	})
}

func (job *planJob) run(ctx context.Context, args []string, std streams) (int, error) {
	path, err := siteArgument(args)
	if err != nil {
		return exitUsage, fmt.Errorf("plan: %w", err)
	}
	if job.dir == "" && !job.json {
		return exitUsage, errors.New("plan: say with --out DIR where the papers go")
	}
	s, err := site.Open(path)
	if err != nil {
		return exitUnreadable, err
	}
	job.options.Folder = filepath.Dir(path)
	if job.dir != "" {
		// Better now than after a long search.
		if err := os.MkdirAll(job.dir, 0o755); err != nil {
			return exitUnwritable, fmt.Errorf("the papers cannot be written: %w", err)
		}
	}
	tables, err := site.LoadTables()
	if err != nil {
		return exitFault, err
	}
	plan, code, err := solve(ctx, s, tables, std)
	if err != nil {
		return code, err
	}
	if code, err := job.deliver(s, tables, plan, std); err != nil {
		return code, err
	}
	return verdict(s, plan, std)
}

// solve plans, telling on stderr how it gets on. An error comes with its exit
// code.
func solve(ctx context.Context, s *site.Site, t *site.Tables, std streams) (*route.Plan, int, error) {
	p := newProgress(std.err, time.Now)
	defer p.done()
	plan, err := route.Solve(ctx, s, t, route.Options{Progress: p.report})
	switch {
	case err == nil:
		return plan, exitOK, nil
	case ctx.Err() != nil:
		return nil, exitInterrupted, errors.New("stopped before there was any plan; nothing is written")
	}
	return nil, exitNoPlan, err
}

// deliver writes the papers and prints the plan.
func (job *planJob) deliver(s *site.Site, t *site.Tables, plan *route.Plan, std streams) (int, error) {
	var papers []string
	if job.dir != "" {
		var err error
		if papers, err = export.WritePapers(job.dir, export.UsualPapers(), s, t, plan, job.options); err != nil {
			return exitUnwritable, err
		}
	}
	if job.json {
		data, err := export.PlanJSON(s, plan)
		if err != nil {
			return exitFault, err
		}
		return printed(std.out, string(data))
	}
	return printed(std.out, export.Summary(s, t, plan, job.options)+papersText(papers))
}

// papersText names the papers.
func papersText(papers []string) string {
	text := "\nPapers:\n"
	for _, p := range papers {
		text += "  " + p + "\n"
	}
	return text
}

// verdict says on stderr what the reader of the plan must know besides, and
// picks the exit code.
func verdict(s *site.Site, plan *route.Plan, std streams) (int, error) {
	if plan.Stopped {
		return exitInterrupted, errors.New("stopped: this is the best plan found so far, not the best there is")
	}
	findings, err := s.Findings()
	if err != nil {
		return exitFault, err
	}
	if n := count(findings, network.Error); n > 0 {
		return exitSketch, fmt.Errorf("the sketch has %s; mend what linemap check names before trusting the plan", unit.Count(n, "error"))
	}
	return exitOK, nil
}
