package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strings"
)

// streams are where a command writes: results to out, all else to err.
type streams struct{ out, err io.Writer }

// command is one thing that the program does. Its run gets the arguments that
// are no flags and returns an exit code, with the error that goes before it.
type command struct {
	name  string
	args  string // as shown in the help
	short string // one line, no capital, no stop
	long  string
	flags func(*flag.FlagSet)
	run   func(ctx context.Context, args []string, std streams) (int, error)
}

// commands lists the commands in the order of the help.
func commands() []command {
	return []command{planCommand(), exportCommand(), adviseCommand(), resultsCommand(), checkCommand(), versionCommand()}
}

// run does what args ask for and returns the exit code. Every error becomes
// one line on stderr.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	return report(stderr, func() (int, error) {
		return dispatch(ctx, args, streams{stdout, stderr})
	})
}

// report calls do and writes its error, or the fault that ended it, as one
// line.
func report(stderr io.Writer, do func() (int, error)) (code int) {
	defer func() {
		if fault := recover(); fault != nil {
			fmt.Fprintf(stderr, "linemap: a fault in the program, please report it: %s\n", oneLine(fmt.Sprintf("%v (%s)", fault, faultPlace())))
			code = exitFault
		}
	}()
	code, err := do()
	if err != nil {
		fmt.Fprintf(stderr, "linemap: %s\n", oneLine(err.Error()))
	}
	return code
}

// dispatch finds the command and hands it its flags and arguments.
func dispatch(ctx context.Context, args []string, std streams) (int, error) {
	if len(args) == 0 {
		return window("")
	}
	if namesSite(args) {
		return window(args[0])
	}
	name, args := args[0], args[1:]
	switch name {
	case "help", "-h", "-help", "--help":
		return help(args, std)
	case "-version", "--version":
		name = "version"
	}
	cmd, err := find(name)
	if err != nil {
		return exitUsage, err
	}
	rest, err := parse(cmd, args)
	if errors.Is(err, flag.ErrHelp) {
		return printed(std.out, cmd.help())
	}
	if err != nil {
		return exitUsage, fmt.Errorf("%s: %w (see linemap help %s)", name, err, name)
	}
	return cmd.run(ctx, rest, std)
}

// find returns the command of that name.
func find(name string) (command, error) {
	all := commands()
	i := slices.IndexFunc(all, func(c command) bool { return c.name == name })
	if i < 0 {
		return command{}, fmt.Errorf("no command %q (see linemap help)", name)
	}
	return all[i], nil
}

// help prints the overview, or the help of the command that args name.
func help(args []string, std streams) (int, error) {
	if len(args) == 0 {
		return printed(std.out, overview())
	}
	cmd, err := find(args[0])
	if err != nil {
		return exitUsage, err
	}
	return printed(std.out, cmd.help())
}

// printed writes a finished text to w.
func printed(w io.Writer, text string) (int, error) {
	if _, err := io.WriteString(w, text); err != nil {
		return exitUnwritable, fmt.Errorf("the output cannot be written: %w", err)
	}
	return exitOK, nil
}

// oneLine folds a text of several lines into one.
func oneLine(s string) string {
	lines := strings.FieldsFunc(s, func(r rune) bool { return r == '\n' || r == '\r' })
	for i := range lines {
		lines[i] = strings.TrimSpace(lines[i])
	}
	return strings.Join(lines, "; ")
}

// faultPlace names the place in our own code that a panic came from, for the
// one line that a report needs.
func faultPlace() string {
	pcs := make([]uintptr, 64)
	frames := runtime.CallersFrames(pcs[:runtime.Callers(0, pcs)])
	for raised := false; ; {
		frame, more := frames.Next()
		if raised && strings.HasPrefix(frame.Function, "linemap/") || raised && strings.HasPrefix(frame.Function, "main.") {
			return fmt.Sprintf("%s:%d", frame.File[strings.LastIndex(frame.File, "/")+1:], frame.Line)
		}
		raised = raised || frame.Function == "runtime.gopanic"
		if !more {
			return "place unknown"
		}
	}
}
