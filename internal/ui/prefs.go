package ui

import (
	"os"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"linemap/internal/ui/look"
	"linemap/internal/unit"
)

// prefs are what the program remembers of the user's choices.
type prefs struct{ fyne.Preferences }

const (
	prefTheme  = "theme"
	prefScale  = "text_scale"
	prefWidth  = "width"
	prefHeight = "height"
	prefRecent = "recent"
	prefUnits  = "units"
	prefSplit  = "split"
	prefFloor  = "floor"
	prefPapers = "papers"
)

// mostRecent is how many files are remembered.
const mostRecent = 8

func (p prefs) float(key string, otherwise float64) float64 {
	return p.FloatWithFallback(key, otherwise)
}

// size is the size of the window: as it was left, or one that fits a small
// laptop.
func (p prefs) size() fyne.Size {
	hold := func(v, least, most float64) float32 { return float32(min(max(v, least), most)) }
	return fyne.NewSize(hold(p.float(prefWidth, 1280), 640, 8000), hold(p.float(prefHeight, 760), 480, 5000))
}

// applyTheme puts the chosen light and text size in force.
func (p prefs) applyTheme(app fyne.App) {
	app.Settings().SetTheme(&look.Theme{Choice: look.Choice(p.String(prefTheme)), Scale: float32(p.float(prefScale, 1))})
}

// units are those of a new site: the last chosen, else US customary where the
// system's language says so.
func (p prefs) units() unit.System {
	if u, err := unit.ParseSystem(p.String(prefUnits)); err == nil {
		return u
	}
	for _, name := range []string{"LC_ALL", "LC_MEASUREMENT", "LANG"} {
		if v := os.Getenv(name); v != "" && v != "C" && !strings.HasPrefix(v, "C.") && v != "POSIX" {
			if strings.Contains(v, "_US") {
				return unit.US
			}
			return unit.Metric
		}
	}
	return unit.US
}

// recent lists the files opened last that are still there, the last first.
func (p prefs) recent() []string {
	return slices.DeleteFunc(p.StringList(prefRecent), func(path string) bool {
		_, err := os.Stat(path)
		return err != nil
	})
}

// remember puts a file in front of the recent ones.
func (p prefs) remember(path string) {
	list := slices.DeleteFunc(p.StringList(prefRecent), func(o string) bool { return o == path })
	list = append([]string{path}, list...)
	p.SetStringList(prefRecent, list[:min(len(list), mostRecent)])
}
