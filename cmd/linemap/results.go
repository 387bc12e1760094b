package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"strings"
	"time"

	"linemap/internal/export"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/site/edit"
)

// resultsJob is what the flags of results ask for.
type resultsJob struct{ date, crew string }

func resultsCommand() command {
	job := &resultsJob{}
	return command{
		name:  "results",
		args:  "SITE TABLE [FLAGS]",
		short: "take a filled-in results table into the site",
		long: `Reads the results table that export --only results writes, after it was filled
in, and keeps what it says in the site file as the visit of a day: how far each
run got, what was found, the condition of the pipe. Rows left blank are left
out. Results of the same run on the same day are replaced, the others stay.

A table that cannot be read changes nothing; what is wrong is told with its
line, its column and the limit. Semicolons and decimal commas are understood.`,
		flags: job.flags,
		run:   job.run,
	}
}

func (job *resultsJob) flags(fs *flag.FlagSet) {
	fs.Func("date", "the `DAY` of the visit, like 2026-03-17, instead of the job's", func(v string) error {
		job.date = v
		if _, err := time.Parse(time.DateOnly, v); err != nil {
			return errors.New("write it like 2026-03-17")
		}
		return nil
	})
	fs.StringVar(&job.crew, "crew", "", "`WHO` was there")
}

func (job *resultsJob) run(ctx context.Context, args []string, std streams) (int, error) {
	if len(args) != 2 {
		return exitUsage, errors.New("results: name the site file and the filled-in table")
	}
	path, table := args[0], args[1]
	s, err := site.Open(path)
	if err != nil {
		return exitUnreadable, err
	}
	date := s.Job.Date
	if job.date != "" {
		date = job.date
	}
	if date == "" {
		return exitUsage, errors.New("results: the job has no date; say with --date on which day the work was done")
	}
	// Better now than after a long search.
	if _, err := os.Stat(table); err != nil {
		return exitUnreadable, err
	}
	tables, err := site.LoadTables()
	if err != nil {
		return exitFault, err
	}
	plan, code, err := solve(ctx, s, tables, std)
	if err != nil {
		return code, err
	}
	results, err := export.OpenResults(table, s, tables, plan)
	if err != nil {
		return exitUnreadable, err
	}
	if err := job.keep(s, date, results); err != nil {
		return exitUsage, fmt.Errorf("results: %w", err)
	}
	if err := site.Save(path, s); err != nil {
		return exitUnwritable, err
	}
	return printed(std.out, taken(s, plan, date, results))
}

// keep puts results into the visit of a day.
func (job *resultsJob) keep(s *site.Site, date string, results []site.RunResult) error {
	v := site.Visit{Date: date}
	if was := s.Visit(date); was != nil {
		v = was.Clone()
	}
	if job.crew != "" {
		v.Crew = job.crew
	}
	for _, r := range results {
		v.Put(r)
	}
	e, err := edit.SetVisit(s, v)
	if err != nil {
		return err
	}
	e.Do(s)
	return nil
}

// taken says what was taken in, and which runs have no result yet.
func taken(s *site.Site, p *route.Plan, date string, results []site.RunResult) string {
	var b strings.Builder
	all := p.Runs()
	fmt.Fprintf(&b, "Visit of %s: results of %d of %d runs taken in.\n", date, len(results), len(all))
	visit := s.Visit(date)
	var open []string
	for i, key := range p.Keys() {
		if visit.Result(key) == nil {
			open = append(open, fmt.Sprint(all[i].Number))
		}
	}
	if len(open) > 0 {
		fmt.Fprintf(&b, "No result yet for run %s.\n", strings.Join(open, ", "))
	}
	return b.String()
}
