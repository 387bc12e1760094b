package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"strings"
	"text/tabwriter"
	"time"

	"linemap/internal/rig"
	"linemap/internal/route/advice"
	"linemap/internal/site"
)

// adviseJob is what the flags of advise ask for.
type adviseJob struct {
	rigs []string
	json bool
}

func adviseCommand() command {
	job := &adviseJob{}
	return command{
		name:  "advise",
		args:  "SITE [FLAGS]",
		short: "say which rig, cleanouts, spots or limits would pay",
		long: `Plans the site again and again, each time with something changed, and says
what that is worth: which rig to send, where new cleanouts would reach what no
run reaches, where in the stand areas one more spot pays, what each limit of the
rig costs, and which pipe would likely be reached all the same.

Without --rig the program's own rigs are compared. Decisions made by hand are
left aside. A long comparison tells on stderr how it gets on. Ctrl-C stops it,
and nothing is printed.`,
		flags: job.flags,
		run:   job.run,
	}
}

func (job *adviseJob) flags(fs *flag.FlagSet) {
	fs.Func("rig", "compare the rig in `FILE` ("+site.RigExtension+"); may be given again", func(v string) error {
		job.rigs = append(job.rigs, v)
		return nil
	})
	fs.BoolVar(&job.json, "json", false, "print the advice as JSON, and nothing else, on stdout")
}

func (job *adviseJob) run(ctx context.Context, args []string, std streams) (int, error) {
	path, err := siteArgument(args)
	if err != nil {
		return exitUsage, fmt.Errorf("advise: %w", err)
	}
	s, err := site.Open(path)
	if err != nil {
		return exitUnreadable, err
	}
	rigs, err := job.compared()
	if err != nil {
		return exitUnreadable, err
	}
	tables, err := site.LoadTables()
	if err != nil {
		return exitFault, err
	}
	p := newProgress(std.err, time.Now)
	r, err := advice.On(ctx, s, tables, rigs, p.compare)
	p.done()
	switch {
	case ctx.Err() != nil:
		return exitInterrupted, errors.New("stopped before the advice was complete; nothing is printed")
	case err != nil:
		return exitNoPlan, err
	}
	if job.json {
		data, err := site.EncodeValue(*r)
		if err != nil {
			return exitFault, err
		}
		return printed(std.out, string(data))
	}
	return printed(std.out, adviceText(r.Tables(s.Units)))
}

// compared reads the rigs to compare.
func (job *adviseJob) compared() ([]rig.Rig, error) {
	if len(job.rigs) == 0 {
		return site.OwnRigs()
	}
	var rigs []rig.Rig
	for _, path := range job.rigs {
		data, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		r, err := site.DecodeRig(data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		rigs = append(rigs, *r)
	}
	return rigs, nil
}

// adviceText sets tables in columns under their headings.
func adviceText(tables []advice.Table) string {
	var b strings.Builder
	for i, t := range tables {
		if i > 0 {
			b.WriteString("\n")
		}
		b.WriteString(t.Title + "\n\n")
		tw := tabwriter.NewWriter(&b, 0, 0, 3, ' ', 0)
		for _, row := range append([][]string{t.Head}, t.Rows...) {
			if len(row) > 0 {
				fmt.Fprintln(tw, "  "+strings.Join(row, "\t"))
			}
		}
		tw.Flush() // a strings.Builder takes everything
		if len(t.Rows) > 0 && len(t.Notes) > 0 {
			b.WriteString("\n")
		}
		for _, n := range t.Notes {
			b.WriteString("  " + n + "\n")
		}
	}
	return b.String()
}
