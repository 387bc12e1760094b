package main

import (
	"flag"
	"fmt"
	"strings"
	"text/tabwriter"
)

// overview is the help of the whole program.
func overview() string {
	var b strings.Builder
	b.WriteString(`linemap plans the cleaning of a building's drains with a trailer-mounted water
jetter: from which openings, in what order, with which hose and nozzle, with
how much water and in how many minutes, and what cannot be reached and why.

Usage:

`)
	rows := [][2]string{{"linemap [SITE]", windowHelp}}
	for _, c := range commands() {
		rows = append(rows, [2]string{strings.TrimSpace("linemap " + c.name + " " + c.args), c.short})
	}
	rows = append(rows, [2]string{"linemap help [COMMAND]", "show this, or the help of one command"})
	columns(&b, rows)
	b.WriteString("\nSITE is a site file: one job with its drain, spots, water points and rig.\n\nExit codes:\n\n")
	rows = rows[:0]
	for _, c := range exitCodes() {
		rows = append(rows, [2]string{fmt.Sprintf("%3d", c.code), c.meaning})
	}
	columns(&b, rows)
	return b.String()
}

// help is the help of one command.
func (c *command) help() string {
	var b strings.Builder
	fmt.Fprintf(&b, "Usage: %s\n\n%s\n", strings.TrimSpace("linemap "+c.name+" "+c.args), strings.TrimSpace(c.long))
	rows := [][2]string{}
	c.flagSet().VisitAll(func(f *flag.Flag) {
		value, usage := flag.UnquoteUsage(f)
		rows = append(rows, [2]string{strings.TrimSpace("--" + f.Name + " " + value), usage})
	})
	if len(rows) > 0 {
		b.WriteString("\nFlags, before or after SITE:\n\n")
		columns(&b, rows)
	}
	return b.String()
}

// columns writes rows of two columns, indented.
func columns(b *strings.Builder, rows [][2]string) {
	tw := tabwriter.NewWriter(b, 0, 0, 3, ' ', 0)
	for _, r := range rows {
		fmt.Fprintf(tw, "  %s\t%s\n", r[0], r[1])
	}
	tw.Flush() // a strings.Builder takes everything
}
