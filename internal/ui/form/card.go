package form

import (
	"fmt"
	"maps"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// Card says what is selected and takes changes to it; with nothing selected, it
// says how the site stands and what to do next.
type Card struct {
	widget.BaseWidget
	desk *desk.Desk
	tell func(error)

	heading *widget.Label
	gap     *gapBox
	kinds   *fyne.Container // of a selection of several kinds
	place   *fyne.Container // where the sheet lies
	page    *page

	of     edit.Selection // what the card is about
	kind   edit.Kind      // what all of it is, "" for nothing, several for many
	sheets map[edit.Kind]part
	state  desk.Planning // of the plan last shown
	busy   bool          // an edit of the card's own is on its way
}

// several stands for things of more than one kind.
const several edit.Kind = "several"

// part is the sheet of one kind.
type part interface {
	object() fyne.CanvasObject
	heading() string
	refresh()
	turn()
	settle() bool
	drop()
	holds(fyne.Focusable) bool
}

// New makes the card of what is selected on a desk. Tell hears of what could not
// be done and stands under no field.
func New(d *desk.Desk, tell func(error)) *Card {
	c := &Card{desk: d, tell: tell, sheets: map[edit.Kind]part{}}
	c.heading = widget.NewLabel("")
	c.heading.SizeName, c.heading.TextStyle.Bold, c.heading.Wrapping = theme.SizeNameSubHeadingText, true, fyne.TextWrapWord
	c.gap = newGapBox(c)
	c.kinds = container.New(&stack{gap: 2})
	c.place = container.New(&stack{})
	c.page = newPage(fyne.NewSize(240, 120), c.heading, c.gap.box, c.kinds, c.place)
	c.ExtendBaseWidget(c)
	c.turn()
	d.Watch(c.changed)
	return c
}

// CreateRenderer is for Fyne.
func (c *Card) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(c.page) }

func (c *Card) changed(what desk.Change) {
	switch {
	case what == desk.Opened:
		c.leave(false)
		c.turn()
	case what&desk.Selected != 0:
		c.leave(true)
		c.turn()
	case what&desk.Document != 0, what&desk.Checked != 0:
		c.refresh()
	case what&desk.Planned != 0:
		// The news of a planner at work change nothing that the card says.
		if now := c.desk.Planning(); now.Running != c.state.Running || now.Revision != c.state.Revision {
			c.refresh()
		}
	}
}

// leave ends typing before the card turns to something else; keep has what was
// typed made an edit.
func (c *Card) leave(keep bool) {
	p := c.sheets[c.kind]
	if p == nil {
		return
	}
	if keep {
		c.busy = true
		p.settle()
		c.busy = false
	}
	p.drop()
	if on := fyne.CurrentApp().Driver().CanvasForObject(c); on != nil && p.holds(on.Focused()) {
		on.Unfocus()
	}
}

// turn shows what is selected now.
func (c *Card) turn() {
	if c.busy {
		return
	}
	c.of = c.desk.Selection()
	c.kind = kindOf(c.of)
	c.place.RemoveAll()
	if c.kind != several {
		p := c.sheets[c.kind]
		if p == nil {
			p = c.newPart(c.kind)
			c.sheets[c.kind] = p
		}
		c.place.Add(p.object())
		p.turn()
	}
	c.page.scroll.ScrollToTop()
	c.refresh()
}

// refresh shows how what the card is about stands now.
func (c *Card) refresh() {
	if c.busy {
		return
	}
	c.state = c.desk.Planning()
	c.kinds.RemoveAll()
	heading := ""
	if p := c.sheets[c.kind]; p != nil {
		p.refresh()
		heading = p.heading()
	} else {
		heading = fmt.Sprintf("%d things", c.of.Len())
		c.listKinds()
	}
	if c.heading.Text != heading {
		c.heading.SetText(heading)
	}
	c.gap.refresh()
	c.page.again()
}

// listKinds offers each kind of a mixed selection by itself.
func (c *Card) listKinds() {
	count := map[edit.Kind]int{}
	for _, r := range c.of.Refs() {
		count[r.Kind]++
	}
	for _, k := range slices.Sorted(maps.Keys(count)) {
		kind := k
		b := widget.NewButton("Only the "+unit.Count(count[k], kindWords[k]), func() {
			c.desk.Select(c.of.Keep(func(r edit.Ref) bool { return r.Kind == kind }))
		})
		b.Alignment = widget.ButtonAlignLeading
		c.kinds.Add(b)
	}
}

func (c *Card) resized() { c.page.again() }

func (c *Card) newPart(k edit.Kind) part {
	pipeName := func(p *network.Pipe) string { return p.Name() }
	switch k {
	case edit.Node:
		return newKind(c, k, nodeFields(), func(s *site.Site) []network.Node { return s.Network.Nodes },
			func(n *network.Node) edit.Ref { return edit.NodeRef(n.ID) },
			(*network.Node).Name, nodeHeading, func(to func(*network.Node)) edit.Changes { return edit.Changes{Node: to} })
	case edit.Pipe:
		return newKind(c, k, pipeFields(), func(s *site.Site) []network.Pipe { return s.Network.Pipes },
			func(p *network.Pipe) edit.Ref { return edit.PipeRef(p.ID) },
			pipeName, func(p *network.Pipe) string { return pipeHeading(c.desk, p) },
			func(to func(*network.Pipe)) edit.Changes { return edit.Changes{Pipe: to} })
	case edit.Spot:
		return newKind(c, k, spotFields(), func(s *site.Site) []site.Spot { return s.Spots },
			func(v *site.Spot) edit.Ref { return edit.SpotRef(v.ID) },
			func(v *site.Spot) string { return named(v.Label, k, string(v.ID)) },
			func(v *site.Spot) string { return headed("Spot", v.Label) },
			func(to func(*site.Spot)) edit.Changes { return edit.Changes{Spot: to} })
	case edit.Water:
		return newKind(c, k, waterFields(), func(s *site.Site) []site.WaterPoint { return s.Water },
			func(v *site.WaterPoint) edit.Ref { return edit.WaterRef(v.ID) },
			func(v *site.WaterPoint) string { return named(v.Label, k, string(v.ID)) }, waterHeading,
			func(to func(*site.WaterPoint)) edit.Changes { return edit.Changes{Water: to} })
	case edit.Lay:
		return newKind(c, k, layFields(), func(s *site.Site) []site.Lay { return s.Lays },
			edit.LayRef, func(l *site.Lay) string { return "lay to " + layEnd(c.desk, l) },
			func(l *site.Lay) string { return "Lay to " + layEnd(c.desk, l) },
			func(to func(*site.Lay)) edit.Changes { return edit.Changes{Lay: to} })
	case edit.Area:
		return newKind(c, k, areaFields(), func(s *site.Site) []site.Area { return s.Areas },
			func(v *site.Area) edit.Ref { return edit.AreaRef(v.ID) }, (*site.Area).Name, areaHeading,
			func(to func(*site.Area)) edit.Changes { return edit.Changes{Area: to} })
	case edit.Note:
		return newKind(c, k, noteFields(), func(s *site.Site) []site.Note { return s.Notes },
			func(v *site.Note) edit.Ref { return edit.NoteRef(v.ID) },
			func(v *site.Note) string { return "note" }, func(*site.Note) string { return "Note" },
			func(to func(*site.Note)) edit.Changes { return edit.Changes{Note: to} })
	case edit.Underlay:
		return newKind(c, k, underlayFields(), func(s *site.Site) []site.Underlay { return s.Underlays },
			func(v *site.Underlay) edit.Ref { return edit.UnderlayRef(v.ID) },
			func(v *site.Underlay) string { return named(v.Label, k, string(v.ID)) },
			func(v *site.Underlay) string { return headed("Floor plan", v.Label) },
			func(to func(*site.Underlay)) edit.Changes { return edit.Changes{Underlay: to} })
	}
	return newSummary(c)
}

// kindPart is the sheet of things of one kind.
type kindPart[T any] struct {
	*sheet[T]
	kind edit.Kind
	head func(*T) string
}

// newKind makes the sheet of one kind: where its things are kept, how they are
// named, and how a change to one of them is carried out.
func newKind[T any](
	c *Card, k edit.Kind, fields []field[T], list func(*site.Site) []T, ref func(*T) edit.Ref,
	name, head func(*T) string, changes func(func(*T)) edit.Changes,
) part {
	about := subject[T]{
		things: func() []*T {
			var all []*T
			l := list(c.desk.Site())
			for i := range l {
				if c.of.Has(ref(&l[i])) {
					all = append(all, &l[i])
				}
			}
			return all
		},
		called: func(all []*T) string {
			if len(all) == 1 {
				return name(all[0])
			}
			return unit.Count(len(all), kindWords[k])
		},
		change: func(step string, to func(*T)) error {
			e, err := edit.Change(c.desk.Site(), step, c.of, changes(to))
			if err == nil {
				c.desk.Do(e)
			}
			return err
		},
	}
	return &kindPart[T]{newSheet(c.desk, about, c.resized, fields...), k, head}
}

func (p *kindPart[T]) object() fyne.CanvasObject { return p.box }

func (p *kindPart[T]) heading() string {
	switch all := p.about.things(); len(all) {
	case 0:
		return ""
	case 1:
		return p.head(all[0])
	default:
		return unit.Count(len(all), kindWords[p.kind])
	}
}

var kindWords = map[edit.Kind]string{
	edit.Node: "fitting", edit.Pipe: "pipe", edit.Spot: "spot", edit.Water: "water point",
	edit.Lay: "hose lay", edit.Area: "area", edit.Note: "note", edit.Underlay: "floor plan",
}

// kindOf is the kind of all that is selected.
func kindOf(s edit.Selection) edit.Kind {
	var kind edit.Kind
	for _, r := range s.Refs() {
		if kind != "" && r.Kind != kind {
			return several
		}
		kind = r.Kind
	}
	return kind
}

// named names a thing by its label, else by its kind and ID.
func named(label string, k edit.Kind, id string) string {
	if label != "" {
		return label
	}
	return kindWords[k] + " " + id
}

// megabytes writes how large a file is.
func megabytes(n int) string {
	const kilo, mega = 1 << 10, 1 << 20
	switch {
	case n < mega:
		return fmt.Sprintf("%d kB", (n+kilo-1)/kilo)
	default:
		return fmt.Sprintf("%.1f MB", float64(n)/mega)
	}
}
