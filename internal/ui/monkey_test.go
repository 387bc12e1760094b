package ui

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/ui/hand"
	"linemap/internal/ui/look"
)

// TestMonkeyAtTheWindow does whatever can be done: commands, tools, keys, clicks,
// the buttons and fields of the dialogs that come up. None ends in a fault, and what
// comes out is a site that can be kept.
func TestMonkeyAtTheWindow(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("TMPDIR", home)
	t.Setenv("PATH", home)
	t.Chdir(home)
	steps := 400
	if testing.Short() || raced {
		steps = 100
	}
	for _, seed := range []uint64{1, 2} {
		m := &monkey{demo(t, "restaurant"), rand.New(rand.NewPCG(seed, seed)), nil}
		for i := range steps {
			m.step()
			for len(m.driver.news) > 0 {
				(<-m.driver.news)()
			}
			if find(m.top(), func(l *widget.Label) bool { return l.Text == "A fault in the program" }) != nil {
				require.FailNow(t, "a fault", "seed %d, step %d: %s\nafter %q", seed, i, m.dialogText(), m.did[max(0, len(m.did)-12):])
			}
		}
		data, err := site.Encode(m.desk.Site())
		require.NoError(t, err)
		_, err = site.Decode(data)
		assert.NoError(t, err, "what the monkey made can be read again")
		m.rest()
	}
}

type monkey struct {
	*bench
	*rand.Rand
	did []string
}

func one[T any](m *monkey, of ...T) T { return of[m.IntN(len(of))] }

func (m *monkey) note(format string, words ...any) {
	m.did = append(m.did, fmt.Sprintf(format, words...))
}

// place is somewhere on the board, or at a thing.
func (m *monkey) place() network.Point {
	if nodes := m.desk.Site().Network.Nodes; len(nodes) > 0 && m.IntN(2) == 0 {
		return nodes[m.IntN(len(nodes))].At
	}
	v := m.board.View()
	x, y := (m.Float64()-0.5)*v.W/v.Scale, (m.Float64()-0.5)*v.H/v.Scale
	return network.Point{X: v.Centre.X + ft(x*3.28, 0).X, Y: v.Centre.Y + ft(0, y*3.28).Y}
}

func (m *monkey) step() {
	if m.dialog() != nil {
		m.answer()
		return
	}
	switch m.IntN(12) {
	case 0, 1, 2:
		c := one(m, m.commands()...)
		if c.name == "Quit" {
			return
		}
		m.note("command %s", c.name)
		item := m.menus[c.name]
		if item.ChildMenu != nil {
			if items := item.ChildMenu.Items; len(items) > 0 {
				one(m, items...).Action()
			}
			return
		}
		item.Action()
	case 3:
		e := one(m, hand.Kit()...)
		m.note("tool %s", e.Name)
		m.kit.take(e)
	case 4, 5, 6:
		p := m.place()
		m.note("click %v", p)
		m.clickWith(p, one(m, desktop.MouseButtonPrimary, desktop.MouseButtonPrimary, desktop.MouseButtonSecondary), one(m, 0, fyne.KeyModifierShift))
	case 7:
		from, to := m.place(), m.place()
		m.note("drag %v %v", from, to)
		m.drag(from, to)
	case 8:
		k := one(m, fyne.KeyReturn, fyne.KeyEscape, fyne.KeyBackspace, fyne.KeyDelete, fyne.KeyTab, fyne.KeyLeft, fyne.KeyHome)
		m.note("key %s", k)
		m.key(k)
	case 9:
		text := one(m, "12", "3-6", "<45", "1e9", "p", "x", "-", "+")
		m.note("type %s", text)
		m.typed(text)
	case 10:
		if p := m.desk.Planning(); p.Plan != nil {
			n := m.IntN(len(p.Plan.Keys()) + 2)
			m.note("run %d", n)
			m.runMenu(n, fyne.NewPos(300, 300))
		}
	case 11:
		if m.day.replay != nil {
			m.strip.SetTime(m.day.replay.Ends() * 3 / 7)
		}
		m.setTheme(one(m, look.ByDay, look.ByNight))
	}
}

// answer presses something in the dialog or menu on top, or fills something in.
func (m *monkey) answer() {
	if menu := find(m.dialog(), func(*widget.PopUpMenu) bool { return true }); menu != nil && m.IntN(3) > 0 {
		items := slices.DeleteFunc(slices.Clone(menu.Items), func(o fyne.CanvasObject) bool { _, ok := o.(fyne.Tappable); return !ok })
		if len(items) > 0 {
			item := one(m, items...)
			m.note("menu entry %s", textOf(item))
			item.(fyne.Tappable).Tapped(&fyne.PointEvent{})
			return
		}
	}
	var buttons []*widget.Button
	var fields []field
	walk(m.dialog(), func(o fyne.CanvasObject, _ frame) {
		switch v := o.(type) {
		case *widget.Button:
			buttons = append(buttons, v)
		case field:
			fields = append(fields, v)
		}
	})
	switch {
	case len(fields) > 0 && m.IntN(2) == 0:
		f, text := one(m, fields...), one(m, "", "1", "1e9", "12 ft", "North", "-3", "\x00")
		m.note("fill in %q", text)
		f.SetText(text)
		m.win.Canvas().Focus(f)
		m.key(one(m, fyne.KeyReturn, fyne.KeyEscape))
	case len(buttons) > 0 && m.IntN(3) > 0:
		b := one(m, buttons...)
		m.note("press %s", b.Text)
		if !b.Disabled() {
			test.Tap(b)
		}
	default:
		m.note("escape")
		m.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	}
}
