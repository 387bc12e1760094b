package form

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/export"
	"linemap/internal/network"
	"linemap/internal/site/edit"
	"linemap/internal/ui/punch"
)

// gapBox says why a pipe is not cleaned and what would mend it, with a button
// where one step does.
type gapBox struct {
	card   *Card
	why    *widget.Label
	cure   *widget.Label
	button *widget.Button
	box    *fyne.Container
}

func newGapBox(c *Card) *gapBox {
	g := &gapBox{card: c, why: widget.NewLabel(""), cure: widget.NewLabel(""), button: widget.NewButton("", nil)}
	g.why.Wrapping, g.why.TextStyle.Bold, g.cure.Wrapping = fyne.TextWrapWord, true, fyne.TextWrapWord
	g.box = container.New(&stack{}, g.why, g.cure, g.button)
	g.box.Hide()
	return g
}

func (g *gapBox) refresh() {
	g.box.Hide()
	if g.card.kind != edit.Pipe || g.card.of.Len() != 1 {
		return
	}
	d := g.card.desk
	s := shortfallOf(d, network.PipeID(g.card.of.Refs()[0].ID))
	if s == nil {
		return
	}
	head := "Not cleaned: "
	if d.Planning().Stale {
		head = "Not cleaned before the last change: "
	}
	g.why.SetText(head + export.Sentence(s.Why(d.Units())))
	g.cure.SetText(export.Sentence(s.Cure.Say(d.Units())))
	g.button.Hide()
	if mend := punch.Mend(d, s.Cure); mend != nil {
		g.button.SetText(mend.Say)
		g.button.OnTapped = func() {
			if err := mend.Do(); err != nil {
				g.card.tell(err)
			}
		}
		g.button.Show()
	}
	g.box.Show()
}
