//go:build cgo

package main

import (
	"fyne.io/fyne/v2/app"

	_ "linemap/cmd/linemap/tongue"
	"linemap/internal/ui"
)

// appID is the name under which the system keeps the program's settings.
const appID = "linemap"

func openWindow(path string) (int, error) {
	if err := ui.Run(app.NewWithID(appID), ui.Options{Site: path}); err != nil {
		return exitFault, err
	}
	return exitOK, nil
}
