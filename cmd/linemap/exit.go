package main

// The exit codes, documented by [exitCodes].
const (
	exitOK          = 0
	exitSketch      = 1
	exitUsage       = 2
	exitUnreadable  = 3
	exitUnwritable  = 4
	exitNoPlan      = 5
	exitNoWindow    = 6
	exitFault       = 70
	exitInterrupted = 130
)

// exitCode is a code with its meaning.
type exitCode struct {
	code    int
	meaning string
}

// exitCodes lists every code that the program ends with.
func exitCodes() []exitCode {
	return []exitCode{
		{exitOK, "done"},
		{exitSketch, "the sketch has errors; plan writes its papers all the same"},
		{exitUsage, "the command was not understood"},
		{exitUnreadable, "the site file or the results table cannot be read, or is none"},
		{exitUnwritable, "a paper, the site file or the output cannot be written"},
		{exitNoPlan, "no plan can be made for this site"},
		{exitNoWindow, "the window cannot be opened"},
		{exitFault, "a fault in the program"},
		{exitInterrupted, "stopped by Ctrl-C; plan writes the best plan found so far"},
	}
}
