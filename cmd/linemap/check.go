package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func checkCommand() command {
	return command{
		name:  "check",
		args:  "SITE",
		short: "say what is wrong with a site's sketch",
		long: `Reads a site file and lists what is wrong, or looks wrong, with the sketch in it,
the worst first: where, what was found and what is allowed, where that limit
comes from, and what to do about it. An error must be mended before a plan can
be trusted; a warning is worth a look; advice is worth knowing. Of a file that
does not load, it lists what is wrong with the file.

Figures of plumbing codes differ from place to place: check your local code.`,
		run: check,
	}
}

func check(_ context.Context, args []string, std streams) (int, error) {
	path, err := siteArgument(args)
	if err != nil {
		return exitUsage, fmt.Errorf("check: %w", err)
	}
	s, err := site.Open(path)
	if err != nil {
		if code, err := printed(std.out, problemsText(err)); err != nil {
			return code, err
		}
		return exitUnreadable, err
	}
	findings, err := s.Findings()
	if err != nil {
		return exitFault, err
	}
	if code, err := printed(std.out, findingsText(findings)); err != nil {
		return code, err
	}
	if count(findings, network.Error) > 0 {
		return exitSketch, nil
	}
	return exitOK, nil
}

// problemsText lists what keeps a document from being loaded; nothing for an
// error of another kind.
func problemsText(err error) string {
	var load *site.LoadError
	if !errors.As(err, &load) {
		return ""
	}
	var b strings.Builder
	for _, p := range load.Problems {
		fmt.Fprintf(&b, "error: %s\n", p)
	}
	if load.More > 0 {
		fmt.Fprintf(&b, "and %d more\n", load.More)
	}
	return b.String()
}

// findingsText lists findings for a reader, with a count at the end.
func findingsText(findings []network.Finding) string {
	if len(findings) == 0 {
		return "Nothing found.\n"
	}
	var b strings.Builder
	for _, f := range findings {
		fmt.Fprintf(&b, "%s: %s: %s\n", f.Gravity, export.OneLine(f.Place), export.OneLine(f.What))
		if figures := figures(f); figures != "" {
			fmt.Fprintf(&b, "    %s\n", export.OneLine(figures))
		}
		if f.Cure != "" {
			fmt.Fprintf(&b, "    Cure: %s\n", export.OneLine(f.Cure))
		}
	}
	fmt.Fprintf(&b, "\n%s, %s, %s.\n",
		unit.Count(count(findings, network.Error), "error"),
		unit.Count(count(findings, network.Warning), "warning"),
		unit.Count(count(findings, network.Advice), "piece")+" of advice")
	return b.String()
}

// figures says what was found, what is allowed and who says so.
func figures(f network.Finding) string {
	var parts []string
	if f.Value != "" {
		parts = append(parts, "found "+f.Value)
	}
	if f.Limit != "" {
		parts = append(parts, "limit "+f.Limit)
	}
	if f.Source != "" {
		parts = append(parts, "by "+f.Source)
	}
	return strings.Join(parts, ", ")
}

// count counts the findings of one gravity.
func count(findings []network.Finding, g network.Gravity) int {
	n := 0
	for _, f := range findings {
		if f.Gravity == g {
			n++
		}
	}
	return n
}
