package export

import (
	"fmt"
	"strings"
	"text/tabwriter"
	"unicode"

	"linemap/internal/route"
	"linemap/internal/site"
)

// Summary says a plan in plain text for a terminal: what the day takes, where
// the trailer stands, what is not cleaned and why. Its words are those of the
// run sheet.
func Summary(s *site.Site, t *site.Tables, p *route.Plan, opt Options) string {
	sh := newSheet(s, t, p, opt)
	var b strings.Builder
	fmt.Fprintln(&b, OneLine(sh.Title))
	section := func(head string, rows [][]string) {
		if len(rows) == 0 {
			return
		}
		fmt.Fprintf(&b, "\n%s\n", head)
		tw := tabwriter.NewWriter(&b, 0, 0, 3, ' ', 0)
		for _, row := range rows {
			cells := make([]string, len(row))
			for i := range row {
				cells[i] = OneLine(row[i])
			}
			fmt.Fprintln(tw, "  "+strings.Join(cells, "\t"))
		}
		tw.Flush() // a strings.Builder takes everything
	}
	section("The day", factRows(sh.Figures))
	fmt.Fprintf(&b, "  %s\n", strings.ReplaceAll(sh.Standing, ". ", ".\n  "))
	section("Where the time goes", factRows(sh.Minutes))
	var stops [][]string
	for _, stop := range sh.Stops {
		stops = append(stops, []string{stop.Clock, stop.Spot, stop.Hose, "runs: " + stop.Runs, "water: " + stop.Water})
	}
	section("Where the trailer stands", stops)
	if len(sh.Gaps) > 0 {
		fmt.Fprintf(&b, "\nNot cleaned: %s\n", counted(len(sh.Gaps), "pipe"))
	}
	for _, g := range sh.Gaps {
		fmt.Fprintf(&b, "  %s\n", OneLine(list(g.Pipe, g.What, g.Length)))
		fmt.Fprintf(&b, "    Why: %s\n    Cure: %s\n", OneLine(g.Why), OneLine(g.Cure))
	}
	return b.String()
}

// factRows sets facts in two columns, leaving out what is empty.
func factRows(facts []fact) [][]string {
	var rows [][]string
	for _, f := range facts {
		if f.Say != "" {
			rows = append(rows, []string{f.Name, f.Say})
		}
	}
	return rows
}

// OneLine makes text of a document safe to stand in a line of plain text:
// control characters, which could break the line or command the terminal,
// become spaces.
func OneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}
