// Command linemap plans the cleaning of a building's drains with a
// trailer-mounted water jetter. `linemap help` says how to use it.
//
// It only reads arguments, calls the packages that know the trade, and prints
// what they say: run.go picks the command, args.go reads its flags, exit.go
// holds the exit codes.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends the program at once
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}
