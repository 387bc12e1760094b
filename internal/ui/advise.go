package ui

import (
	"context"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/rig"
	"linemap/internal/route/advice"
	"linemap/internal/site"
	"linemap/internal/site/edit"
)

// advise plans the sketch with one thing or another changed, in the background,
// and shows what that is worth.
func (w *Window) advise() {
	rigs, err := site.OwnRigs()
	if err != nil {
		w.tell(err)
		return
	}
	s, tables := w.desk.Snapshot(), w.desk.Tables()
	ctx, stop := context.WithCancel(context.Background())
	now, bar := widget.NewLabel(""), widget.NewProgressBar()
	now.Truncation = fyne.TextTruncateEllipsis
	d := dialog.NewCustom("What would be better", "Stop", container.NewVBox(now, bar), w.win)
	d.SetOnClosed(stop)
	d.Resize(fyne.NewSize(420, 180))
	d.Show()
	over := w.win.Canvas().Overlays().Top()
	go func() {
		r, err := advice.On(ctx, s, tables, rigs, func(p advice.Progress) {
			fyne.Do(func() {
				if !w.lies(over) { // Escape closed it
					stop()
				}
				now.SetText(fmt.Sprintf("%d of %d: %s", p.Done+1, p.All, p.What))
				bar.SetValue(float64(p.Done) / float64(p.All))
			})
		})
		fyne.Do(w.guard(func() {
			stopped := ctx.Err() != nil || !w.lies(over)
			d.Hide()
			switch {
			case stopped:
				w.status.note("Stopped; there is no advice.")
			case err != nil:
				w.report("There is no advice", export.Capital(err.Error()), "See the punch list for what is lacking.")
			default:
				w.showAdvice(r, rigs)
			}
		}))
	}()
}

// showAdvice shows the tables of a report, each on a tab, with a button at what
// can be taken into the site.
func (w *Window) showAdvice(r *advice.Report, rigs []rig.Rig) {
	var d *dialog.CustomDialog
	take := func(do func() (*edit.Edit, error)) func() {
		return w.guard(func() {
			d.Hide()
			if e, err := do(); w.do(e, err) {
				w.status.note("Done; Undo takes it back.")
			}
		})
	}
	tables := r.Tables(w.units())
	actions := make([][]func(), len(tables))
	actions[advice.RigTable] = []func(){nil} // the site's own
	for i := range rigs {
		actions[advice.RigTable] = append(actions[advice.RigTable], take(func() (*edit.Edit, error) {
			return edit.SetRig(w.desk.Site(), rigs[i].Clone())
		}))
	}
	for _, c := range r.Cleanouts.Set {
		actions[advice.CleanoutTable] = append(actions[advice.CleanoutTable], take(func() (*edit.Edit, error) {
			return edit.AddCleanout(w.desk.Site(), c.Pipe, c.At)
		}))
	}
	for _, p := range r.Spots {
		actions[advice.SpotTable] = append(actions[advice.SpotTable], take(func() (*edit.Edit, error) {
			return edit.PlaceSpot(w.desk.Site(), p.At)
		}))
	}
	tabs := container.NewAppTabs()
	for i, t := range tables {
		tabs.Append(container.NewTabItem(t.Title, adviceTable(t, actions[i])))
	}
	d = dialog.NewCustom("What would be better", "Close", tabs, w.win)
	size := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(1140, size.Width*0.95), min(560, size.Height*0.9)))
	d.Show()
}
