package main

import (
	"context"
	"errors"
	"fmt"
	"runtime"

	"linemap/internal/site"
)

// release is the version of the program; CHANGELOG.md tells what is in it.
const release = "unreleased"

func versionCommand() command {
	return command{
		name:  "version",
		short: "print the version",
		long:  "Prints the version of the program, of the site files it writes, and of the Go\nit was built with.",
		run:   version,
	}
}

func version(_ context.Context, args []string, std streams) (int, error) {
	if len(args) > 0 {
		return exitUsage, errors.New("version: takes no arguments")
	}
	return printed(std.out, fmt.Sprintf("linemap %s, site files version %d, %s\n", release, site.Version, runtime.Version()))
}
