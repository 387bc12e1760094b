package desk

import (
	"linemap/internal/site/edit"
)

// Selection is what is selected.
func (d *Desk) Selection() edit.Selection { return d.selection }

// Select selects, instead of what was selected.
func (d *Desk) Select(s edit.Selection) {
	d.selection = s.Keep(edit.Everything(d.Site()).Has)
	d.tell(Selected)
}

// Level is the name of the level that is drawn on, "" on a site without levels.
func (d *Desk) Level() string { return d.level }

// SetLevel shows another level; what is selected elsewhere no longer is.
func (d *Desk) SetLevel(name string) {
	if name = d.levelOr(name); name != d.level {
		d.level = name
		d.selection = edit.Selection{}
		d.tell(Level | Selected)
	}
}

// levelOr returns name where that is a level of the site, else the one that the
// site opens on.
func (d *Desk) levelOr(name string) string {
	s := d.Site()
	for i := range s.Network.Levels {
		if s.Network.Levels[i].Name == name {
			return name
		}
	}
	return s.MainLevel()
}

// PipeStyle is what the next pipe is made of.
func (d *Desk) PipeStyle() edit.PipeStyle { return d.style }

// SetPipeStyle says what the next pipe is made of.
func (d *Desk) SetPipeStyle(s edit.PipeStyle) {
	d.style = s
	d.tell(Style)
}

// Grid is how the pointer is helped.
func (d *Desk) Grid() Grid { return d.grid }

// SetGrid says how the pointer is helped.
func (d *Desk) SetGrid(g Grid) {
	d.grid = g
	d.tell(Style)
}
