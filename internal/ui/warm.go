package ui

import (
	_ "fyne.io/fyne/v2/app"
	_ "fyne.io/fyne/v2/container"
	_ "fyne.io/fyne/v2/dialog"
	_ "fyne.io/fyne/v2/driver/desktop"
	_ "fyne.io/fyne/v2/test"
	_ "fyne.io/fyne/v2/theme"
	_ "fyne.io/fyne/v2/widget"
	_ "golang.org/x/image/vector"
)
