package main

import (
	"errors"
	"os"
	"runtime"
	"strings"

	"linemap/internal/site"
)

// windowHelp is what the overview says of the window.
const windowHelp = "open the window, on a site or on the welcome"

// window opens the window on a site, "" for the welcome, and returns when it is
// closed. Tests put another in its place.
var window = func(path string) (int, error) {
	if runtime.GOOS == "linux" && os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		return exitNoWindow, errors.New("there is no screen to open a window on; plan and check work without one (see linemap help)")
	}
	return openWindow(path)
}

// namesSite reports whether the arguments are one site to open in the window
// rather than a command.
func namesSite(args []string) bool {
	if len(args) != 1 || strings.HasPrefix(args[0], "-") {
		return false
	}
	if _, err := find(args[0]); err == nil {
		return false
	}
	if strings.HasSuffix(args[0], site.Extension) {
		return true
	}
	info, err := os.Stat(args[0])
	return err == nil && !info.IsDir()
}
