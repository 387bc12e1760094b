package route

import (
	"fmt"
	"strings"
)

// linear is a program in whole numbers and its objective, written down in the LP
// format of CPLEX, which is documented in public and which both cbc (reader of
// COIN-OR) and glpsol (appendix C of the GLPK reference manual) read.
type linear struct {
	objective, rows, binaries []string
	count                     int
}

// term is a variable times a whole number.
type term struct {
	times ticks
	name  string
}

// once is the sum of some variables.
func once(names []string) []term {
	out := make([]term, len(names))
	for i, n := range names {
		out[i] = term{1, n}
	}
	return out
}

func (t term) String() string {
	if t.times < 0 {
		return fmt.Sprintf("- %d %s", -t.times, t.name)
	}
	return fmt.Sprintf("+ %d %s", t.times, t.name)
}

// binary adds a variable that is 0 or 1, at a cost.
func (l *linear) binary(cost ticks, format string, args ...any) string {
	name := l.real(cost, format, args...)
	l.binaries = append(l.binaries, name)
	return name
}

// real adds a variable of 0 or more, at a cost.
func (l *linear) real(cost ticks, format string, args ...any) string {
	name := fmt.Sprintf(format, args...)
	l.objective = append(l.objective, term{cost, name}.String())
	return name
}

// row adds a constraint: a sum of terms, "=" or "<=", a whole number.
func (l *linear) row(sum []term, sense string, right ticks) {
	l.count++
	parts := make([]string, len(sum))
	for i, t := range sum {
		parts[i] = t.String()
	}
	l.rows = append(l.rows, fmt.Sprintf("c%d: %s %s %d", l.count, folded(parts), sense, right))
}

// folded puts parts on lines that every reader takes.
func folded(parts []string) string {
	const each = 8
	var b strings.Builder
	for i, p := range parts {
		if i > 0 && i%each == 0 {
			b.WriteByte('\n')
		}
		b.WriteString(p)
		b.WriteByte(' ')
	}
	return b.String()
}

func (l *linear) String() string {
	return "Minimize\ncost: " + folded(l.objective) +
		"\nSubject To\n" + strings.Join(l.rows, "\n") +
		"\nBinaries\n" + folded(l.binaries) + "\nEnd\n"
}
