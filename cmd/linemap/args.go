package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
)

// parse reads the flags of cmd from args, where they may stand before, between
// and after the other arguments, and returns those. After "--" nothing is a
// flag.
func parse(cmd command, args []string) ([]string, error) {
	fs := cmd.flagSet()
	var rest []string
	for {
		if err := fs.Parse(args); err != nil {
			return nil, err
		}
		left := fs.Args()
		if len(left) == 0 {
			return rest, nil
		}
		if read := len(args) - len(left); read > 0 && args[read-1] == "--" {
			return append(rest, left...), nil
		}
		rest, args = append(rest, left[0]), left[1:]
	}
}

// flagSet returns the flags of c, silent: run prints what is wrong.
func (c *command) flagSet() *flag.FlagSet {
	fs := flag.NewFlagSet(c.name, flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	if c.flags != nil {
		c.flags(fs)
	}
	return fs
}

// siteArgument returns the one argument that a command on a site takes.
func siteArgument(args []string) (string, error) {
	switch len(args) {
	case 0:
		return "", errors.New("name the site file")
	case 1:
		return args[0], nil
	}
	return "", fmt.Errorf("one site file at a time, not %d: %q", len(args), args)
}
