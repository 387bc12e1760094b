package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"linemap/internal/export"
	"linemap/internal/site"
)

// exportJob is what the flags of export ask for.
type exportJob struct {
	dir     string
	only    []export.Paper // nil for all that the site can give
	options export.Options
}

func exportCommand() command {
	job := &exportJob{}
	return command{
		name:  "export",
		args:  "SITE --out DIR [FLAGS]",
		short: "write the papers that are asked for, or all of them",
		long: `Plans the cleaning of a site and writes the papers that --only names into a
folder, or all that the site can give; what it has to be given for the others
is told on stderr. It prints the names of the files, one a line.

` + paperList() + `
A long search tells on stderr how it gets on. Ctrl-C stops it: the papers of the
best plan found so far are written all the same.`,
		flags: job.flags,
		run:   job.run,
	}
}

// paperList lists the papers by their keys.
func paperList() string {
	var b strings.Builder
	rows := [][2]string{}
	for _, p := range export.Papers() {
		rows = append(rows, [2]string{p.Key, p.Title})
	}
	columns(&b, rows)
	return b.String()
}

func (job *exportJob) flags(fs *flag.FlagSet) {
	fs.StringVar(&job.dir, "out", "", "write the papers into `DIR`, made where it is missing; needed")
	fs.Func("only", "write the papers in `LIST`, with commas between them", func(v string) (err error) {
		job.only, err = export.ChoosePapers(v)
		return err
	})
	paperFlags(fs, &job.options)
}

func (job *exportJob) run(ctx context.Context, args []string, std streams) (int, error) {
	path, err := siteArgument(args)
	if err != nil {
		return exitUsage, fmt.Errorf("export: %w", err)
	}
	if job.dir == "" {
		return exitUsage, errors.New("export: say with --out DIR where the papers go")
	}
	s, err := site.Open(path)
	if err != nil {
		return exitUnreadable, err
	}
	job.options.Folder = filepath.Dir(path)
	// Better now than after a long search.
	papers, err := job.papers(s, std.err)
	if err != nil {
		return exitUnwritable, err
	}
	if err := os.MkdirAll(job.dir, 0o755); err != nil {
		return exitUnwritable, fmt.Errorf("the papers cannot be written: %w", err)
	}
	tables, err := site.LoadTables()
	if err != nil {
		return exitFault, err
	}
	plan, code, err := solve(ctx, s, tables, std)
	if err != nil {
		return code, err
	}
	files, err := export.WritePapers(job.dir, papers, s, tables, plan, job.options)
	if err != nil {
		return exitUnwritable, err
	}
	if code, err := printed(std.out, strings.Join(files, "\n")+"\n"); err != nil {
		return code, err
	}
	return verdict(s, plan, std)
}

// papers returns the papers to write. One that the site cannot give is an error
// where it was asked for; else w is told.
func (job *exportJob) papers(s *site.Site, w io.Writer) ([]export.Paper, error) {
	if job.only != nil {
		for _, p := range job.only {
			if err := p.Lacks(s); err != nil {
				return nil, fmt.Errorf("%s: %w", p.Key, err)
			}
		}
		return job.only, nil
	}
	var papers []export.Paper
	for _, p := range export.Papers() {
		if err := p.Lacks(s); err != nil {
			fmt.Fprintf(w, "linemap: no %s: %v\n", p.Key, err)
			continue
		}
		papers = append(papers, p)
	}
	return papers, nil
}
