//go:build cgo

package main

import (
	"os"
	"strings"

	"fyne.io/fyne/v2/app"

	"linemap/internal/ui"
)

// appID is the name under which the system keeps the program's settings.
const appID = "linemap"

func openWindow(path string) (int, error) {
	speakSomething()
	if err := ui.Run(app.NewWithID(appID), ui.Options{Site: path}); err != nil {
		return exitFault, err
	}
	return exitOK, nil
}

// speakSomething names a language where the system names none: the window's
// library complains of that on every start.
func speakSomething() {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if v := os.Getenv(name); v != "" && v != "C" && v != "POSIX" && !strings.HasPrefix(v, "C.") {
			return
		}
	}
	os.Unsetenv("LC_ALL")
	os.Unsetenv("LC_MESSAGES")
	os.Setenv("LANG", "en_US.UTF-8")
}
