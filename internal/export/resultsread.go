package export

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"unicode/utf8"

	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// MaxResultsBytes is the largest results table that is read, in bytes.
const MaxResultsBytes = 8 << 20

// ResultsError is a cell of a results table that cannot be taken: where it
// stands, what was found, and what it must be. Column is empty for a row or
// the whole table.
type ResultsError struct {
	Line                 int
	Column, Found, Limit string
}

// Error says it in one line: "line 7, column passes: found "many", must be a
// whole number from 0 to 1000".
func (e *ResultsError) Error() string {
	where := fmt.Sprintf("line %d", e.Line)
	if e.Column != "" {
		where += ", column " + e.Column
	}
	return fmt.Sprintf("%s: found %s, must be %s", where, e.Found, e.Limit)
}

// OpenResults reads the results of runs from the file of a filled-in table, as
// [ReadResults] does. A table in which no row is filled in is an error.
func OpenResults(path string, s *site.Site, t *site.Tables, p *route.Plan) ([]site.RunResult, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, MaxResultsBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	all, err := ReadResults(data, s, t, p)
	if err == nil && len(all) == 0 {
		err = errors.New("no row of the table is filled in")
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return all, nil
}

// ReadResults reads the results of runs back from the table of [ResultsCSV]
// after it was filled in. A row whose blanks are all empty is left out. The
// table may come from a spreadsheet: with semicolons or tabs between the cells
// and decimal commas, a byte order mark, columns in another order or more of
// them. It takes all or nothing; what it cannot take is a [*ResultsError].
func ReadResults(data []byte, s *site.Site, t *site.Tables, p *route.Plan) ([]site.RunResult, error) {
	if len(data) > MaxResultsBytes {
		return nil, &ResultsError{1, "", "a larger table", fmt.Sprintf("at most %d bytes", MaxResultsBytes)}
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if at := firstBad(data); at >= 0 {
		line := 1 + bytes.Count(data[:at], []byte("\n"))
		return nil, &ResultsError{line, "", fmt.Sprintf("the byte %#02x", data[at]), "text in UTF-8: save the table as CSV UTF-8"}
	}
	r := &resultsReader{site: s, tables: t, runs: map[string]plannedRun{}, seen: map[string]int{}}
	for i := range p.Blocks {
		for k := range p.Blocks[i].Runs {
			run := plannedRun{&p.Blocks[i].Runs[k], &p.Blocks[i]}
			r.runs[keyText(run.run.Key(run.block))] = run
		}
	}
	r.file = csv.NewReader(bytes.NewReader(data))
	r.file.Comma = separator(data)
	r.file.FieldsPerRecord = -1
	if err := r.head(); err != nil {
		return nil, err
	}
	var all []site.RunResult
	for {
		out, err := r.row()
		switch {
		case errors.Is(err, io.EOF):
			return all, nil
		case err != nil:
			return nil, err
		case out != nil:
			all = append(all, *out)
		}
	}
}

// firstBad returns where a text leaves UTF-8, -1 where it never does. A null
// byte is the sign of another encoding.
func firstBad(data []byte) int {
	if at := bytes.IndexByte(data, 0); at >= 0 {
		return at
	}
	for at := 0; at < len(data); {
		r, size := utf8.DecodeRune(data[at:])
		if r == utf8.RuneError && size == 1 {
			return at
		}
		at += size
	}
	return -1
}

// separator is what stands between the cells: whatever the head has most of.
func separator(data []byte) rune {
	head, _, _ := bytes.Cut(bytes.TrimLeft(data, "\r\n"), []byte("\n"))
	best, most := ',', 0
	for _, c := range ",;\t" {
		if n := bytes.Count(head, []byte(string(c))); n > most {
			best, most = c, n
		}
	}
	return best
}

// plannedRun is a run of the plan with its block.
type plannedRun struct {
	run   *route.Run
	block *route.Block
}

// resultsReader reads one table.
type resultsReader struct {
	site   *site.Site
	tables *site.Tables
	runs   map[string]plannedRun
	file   *csv.Reader
	column map[string]int // of those that are read, by name
	named  string         // the column of the counter
	sys    unit.System    // that its name says
	seen   map[string]int // the line of each run
	cells  []string
	line   int
}

// next reads a row.
func (r *resultsReader) next() error {
	cells, err := r.file.Read()
	var broken *csv.ParseError
	if errors.As(err, &broken) {
		return &ResultsError{broken.Line, "", broken.Err.Error(), "cells as RFC 4180 has them, with quotes in pairs"}
	}
	if err != nil {
		return err
	}
	r.cells = cells
	r.line, _ = r.file.FieldPos(0)
	return nil
}

// head finds the columns by their names.
func (r *resultsReader) head() error {
	switch err := r.next(); {
	case errors.Is(err, io.EOF):
		return &ResultsError{1, "", "an empty table", "the results table of this site, filled in"}
	case err != nil:
		return err
	}
	units := map[string]unit.System{
		reachedColumn + csvUnits(unit.US).lengthName:     unit.US,
		reachedColumn + csvUnits(unit.Metric).lengthName: unit.Metric,
	}
	wanted := map[string]bool{keyColumn: true}
	for _, name := range blankColumns() {
		wanted[name] = true
	}
	r.column = map[string]int{}
	for i, cell := range r.cells {
		name := strings.ToLower(strings.TrimSpace(cell))
		sys, counter := units[name]
		if !wanted[name] && !counter {
			continue
		}
		if _, twice := r.column[name]; twice || counter && r.named != "" {
			return &ResultsError{r.line, name, "the column a second time", "one column of its kind"}
		}
		r.column[name] = i
		if counter {
			r.named, r.sys = name, sys
		}
	}
	if r.named == "" {
		return r.without(reachedColumn + csvUnits(r.site.Units).lengthName)
	}
	if _, ok := r.column[keyColumn]; !ok {
		return r.without(keyColumn)
	}
	return nil
}

func (r *resultsReader) without(column string) error {
	return &ResultsError{r.line, column, "no such column", "there, as in the results table of this site"}
}

// cell returns the text of a column, empty where the row or the table is
// without it.
func (r *resultsReader) cell(column string) string {
	i, ok := r.column[column]
	if !ok || i >= len(r.cells) {
		return ""
	}
	return strings.TrimSpace(r.cells[i])
}

func (r *resultsReader) wrong(column, limit string) error {
	found := "nothing"
	if text := r.cell(column); text != "" {
		found = shown(text)
	}
	return &ResultsError{r.line, column, found, limit}
}

// shown quotes a text, its beginning where it is long.
func shown(text string) string {
	const most = 60
	if runes := []rune(text); len(runes) > most {
		return fmt.Sprintf("%q...", string(runes[:most]))
	}
	return fmt.Sprintf("%q", text)
}
