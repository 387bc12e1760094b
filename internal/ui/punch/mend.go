package punch

import (
	"linemap/internal/route"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
)

// Step is a cure that one edit carries out.
type Step struct {
	Say string // what its button says
	Do  func() error
}

// Mend returns the step that carries a cure out on a desk, nil where no edit
// does: a hose must be brought by hand.
func Mend(d *desk.Desk, c route.Cure) *Step {
	if c.Kind != route.NewCleanout {
		return nil
	}
	return &Step{Say: "Add the cleanout", Do: func() error {
		e, err := edit.AddCleanout(d.Site(), c.Pipe, c.At)
		if err == nil {
			d.Do(e)
		}
		return err
	}}
}
