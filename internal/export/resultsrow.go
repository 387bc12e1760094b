package export

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// row reads the next row; nil for one that was left blank.
func (r *resultsReader) row() (*site.RunResult, error) {
	if err := r.next(); err != nil {
		return nil, err
	}
	if r.blank() {
		return nil, nil
	}
	key := r.cell(keyColumn)
	planned, ok := r.runs[key]
	if !ok {
		return nil, r.wrong(keyColumn, "the key of a run of the present plan, as in the results table")
	}
	if line, twice := r.seen[key]; twice {
		return nil, r.wrong(keyColumn, fmt.Sprintf("unlike that of line %d", line))
	}
	r.seen[key] = r.line
	reached, err := r.reading(planned.block.Hose)
	if err != nil {
		return nil, err
	}
	out := planned.run.Result(planned.block, reached)
	for _, take := range []func(*site.RunResult) error{r.words, r.figures} {
		if err := take(&out); err != nil {
			return nil, err
		}
	}
	return &out, r.check(&out)
}

// blank reports whether nothing was filled in.
func (r *resultsReader) blank() bool {
	for _, name := range append(blankColumns(), r.named) {
		if r.cell(name) != "" {
			return false
		}
	}
	return true
}

// reading reads how far the hose went.
func (r *resultsReader) reading(hose string) (unit.Length, error) {
	most := unit.Metres(10000) // as the schema has it
	if i := slices.IndexFunc(r.site.Rig.Hoses, func(h rig.Hose) bool { return h.ID == hose }); i >= 0 {
		most = r.site.Rig.Hoses[i].Length
	}
	limit := fmt.Sprintf("the reading of the hose counter from 0 (run not made) to %s, the length of the hose", r.sys.Length(most))
	reached, err := unit.Lengths.Parse(r.decimal(r.named), r.sys)
	if err != nil || reached < 0 || reached > most {
		return 0, r.wrong(r.named, limit)
	}
	return reached, nil
}

// decimal is the text of a number with a point in it: where a comma does not
// part the cells, a lone one is the decimal comma.
func (r *resultsReader) decimal(column string) string {
	text := r.cell(column)
	if r.file.Comma != ',' && strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		return strings.Replace(text, ",", ".", 1)
	}
	return text
}

// words reads what is a choice from a list, by its key or its name, and free
// text.
func (r *resultsReader) words(out *site.RunResult) error {
	out.Found, out.Initials = r.cell(foundColumn), r.cell(initialsColumn)
	if text := r.cell(depositColumn); text != "" {
		d, ok := r.deposit(text)
		if !ok {
			return r.wrong(depositColumn, "one of "+strings.Join(r.deposits(), ", "))
		}
		out.Deposit = d
	}
	var ok bool
	if out.Severity, ok = choice(r.cell(severityColumn), site.Severities()); !ok {
		return r.wrong(severityColumn, "one of "+joined(site.Severities()))
	}
	if out.Condition, ok = choice(r.cell(conditionColumn), site.Conditions()); !ok {
		return r.wrong(conditionColumn, "one of "+joined(site.Conditions()))
	}
	for name := range strings.SplitSeq(r.cell(photosColumn), ";") {
		if name = strings.TrimSpace(name); name != "" {
			out.Photos = append(out.Photos, name)
		}
	}
	return nil
}

// deposits lists the keys of the deposits in order.
func (r *resultsReader) deposits() []string {
	var keys []string
	for key := range r.tables.Deposits {
		keys = append(keys, string(key))
	}
	slices.Sort(keys)
	return keys
}

func (r *resultsReader) deposit(text string) (network.Deposit, bool) {
	for _, key := range r.deposits() {
		if d := network.Deposit(key); strings.EqualFold(text, key) || strings.EqualFold(text, r.tables.Deposits[d].Name) {
			return d, true
		}
	}
	return "", false
}

// choice finds a word in a list; nothing is no choice.
func choice[T ~string](text string, from []T) (T, bool) {
	for _, v := range from {
		if strings.EqualFold(text, string(v)) {
			return v, true
		}
	}
	return "", text == ""
}

func joined[T ~string](all []T) string {
	words := make([]string, len(all))
	for i, v := range all {
		words[i] = string(v)
	}
	return strings.Join(words, ", ")
}

// figures reads the passes and the minutes.
func (r *resultsReader) figures(out *site.RunResult) error {
	const mostPasses, mostMinutes = 1000, 1440 // as the schema has them
	if text := r.cell(passesColumn); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 0 || n > mostPasses {
			return r.wrong(passesColumn, fmt.Sprintf("a whole number from 0 to %d", mostPasses))
		}
		out.Passes = n
	}
	if r.cell(minutesColumn) != "" {
		m, err := strconv.ParseFloat(r.decimal(minutesColumn), 64)
		if err != nil || !(m >= 0 && m <= mostMinutes) {
			return r.wrong(minutesColumn, fmt.Sprintf("a number of minutes from 0 to %d", mostMinutes))
		}
		out.Minutes = time.Duration(m * float64(time.Minute)).Round(time.Second)
	}
	return nil
}

// check asks whether a site file could keep a result.
func (r *resultsReader) check(out *site.RunResult) error {
	err := site.Check(site.Visit{Date: "2000-01-01", Runs: []site.RunResult{*out}})
	var wrong *site.LoadError
	if errors.As(err, &wrong) && len(wrong.Problems) > 0 {
		p := wrong.Problems[0]
		column, _, _ := strings.Cut(strings.TrimPrefix(p.Path, "runs[0]."), "[")
		return &ResultsError{r.line, column, p.Found, p.Limit}
	}
	return err
}
