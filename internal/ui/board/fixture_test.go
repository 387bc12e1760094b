package board

import (
	"fmt"
	"os"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/ui/desk"
	"linemap/internal/ui/look"
	"linemap/internal/ui/view"
	"linemap/internal/unit"
)

// bench is a board in a window of the test driver. What comes from other
// goroutines waits in a queue until the test asks for it.
type bench struct {
	*Board
	t    testing.TB
	win  fyne.Window
	news chan func()

	errs  []error
	keys  []fyne.KeyName
	runes []rune
	menus []fyne.Position
	moved int
	clock time.Time
}

const wide, high = 1400, 900

// newBench shows a site on a board of 1400 by 900.
func newBench(t testing.TB, s *site.Site) *bench {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(day)
	tables, err := site.LoadTables()
	require.NoError(t, err)
	b := &bench{t: t, news: make(chan func(), 1<<16), clock: time.Unix(1e9, 0)}
	d, err := desk.New(tables, unit.US, func(f func()) { b.news <- f })
	require.NoError(t, err)
	b.Board = New(d, Acts{
		Tell:  func(err error) { b.errs = append(b.errs, err) },
		Menu:  func(at fyne.Position) { b.menus = append(b.menus, at) },
		Key:   func(e *fyne.KeyEvent) { b.keys = append(b.keys, e.Name) },
		Rune:  func(r rune) { b.runes = append(b.runes, r) },
		Moved: func() { b.moved++ },
		Guard: func(f func()) { f() },
	})
	b.painter.done = func(p *picture) { b.news <- func() { b.receive(p) } }
	b.now = func() time.Time { return b.clock }
	b.win = test.NewTempWindow(t, b.Board)
	b.win.SetPadded(false)
	b.win.Resize(fyne.NewSize(wide, high))
	t.Cleanup(func() { b.rest() })
	if s != nil {
		open(b, s)
	}
	return b
}

var (
	day   = &look.Theme{Choice: look.ByDay, Scale: 1}
	night = &look.Theme{Choice: look.ByNight, Scale: 1}
)

// open lays a site on the desk by way of a file, as the window does.
func open(b *bench, s *site.Site) {
	b.t.Helper()
	path := b.t.TempDir() + "/site" + site.Extension
	data, err := site.Encode(s)
	require.NoError(b.t, err)
	require.NoError(b.t, os.WriteFile(path, data, 0o600))
	require.NoError(b.t, b.desk.Open(path))
	b.rest()
}

// demo shows a demo site.
func demo(t testing.TB, name string) *bench {
	b := newBench(t, nil)
	require.NoError(t, b.desk.OpenDemo(name))
	b.rest()
	return b
}

// take does what waits in the queue.
func (b *bench) take() {
	for {
		select {
		case f := <-b.news:
			f()
		default:
			return
		}
	}
}

// busy reports whether a picture is being painted.
func (b *bench) busy() bool {
	b.painter.mu.Lock()
	defer b.painter.mu.Unlock()
	return b.painter.running
}

// rest waits until the board shows what there is.
func (b *bench) rest() {
	for end := time.Now().Add(5 * time.Minute); b.busy() || b.desk.Planning().Running || len(b.news) > 0; {
		if time.Now().After(end) {
			b.t.Fatal("the board does not come to rest")
		}
		select {
		case f := <-b.news:
			f()
		case <-time.After(time.Millisecond):
		}
	}
}

func at(x, y float32) fyne.PointEvent { return fyne.PointEvent{Position: fyne.NewPos(x, y)} }

func (b *bench) mouse(x, y float32, button desktop.MouseButton, mods fyne.KeyModifier) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: at(x, y), Button: button, Modifier: mods}
}

func (b *bench) move(x, y float32) { b.MouseMoved(b.mouse(x, y, 0, 0)) }

func (b *bench) click(x, y float32) {
	b.move(x, y)
	b.MouseDown(b.mouse(x, y, desktop.MouseButtonPrimary, 0))
	b.MouseUp(b.mouse(x, y, desktop.MouseButtonPrimary, 0))
	b.clock = b.clock.Add(time.Second)
}

// drag drags from one place to another in steps, as a pointer does.
func (b *bench) drag(button desktop.MouseButton, x0, y0, x1, y1 float32) {
	const steps = 5
	b.move(x0, y0)
	b.MouseDown(b.mouse(x0, y0, button, 0))
	dx, dy := (x1-x0)/steps, (y1-y0)/steps
	for i := range steps {
		k := float32(i + 1)
		b.Dragged(&fyne.DragEvent{PointEvent: at(x0+k*dx, y0+k*dy), Dragged: fyne.NewDelta(dx, dy)})
	}
	b.DragEnd()
	b.MouseUp(b.mouse(x1, y1, button, 0))
	b.clock = b.clock.Add(time.Second)
}

func (b *bench) scroll(x, y, dx, dy float32) {
	b.Scrolled(&fyne.ScrollEvent{PointEvent: at(x, y), Scrolled: fyne.NewDelta(dx, dy)})
}

// ground is what lies at a place of the board.
func (b *bench) ground(x, y float32) network.Point {
	return b.view.Ground(view.Dot{X: float64(x), Y: float64(y)})
}

// town is an invented site of so many pipes: streets with a sewer under each,
// houses along them, and a drain with branches under each house.
func town(t testing.TB, pipes int) *site.Site {
	s, err := site.New(unit.US)
	require.NoError(t, err)
	net := &s.Network
	node := func(kind network.NodeKind, label string, x, y float64) network.NodeID {
		n := network.Node{
			ID: network.NodeID(fmt.Sprint("n", len(net.Nodes))), Label: label, Kind: kind,
			At: network.Point{X: unit.Metres(x), Y: unit.Metres(y)},
		}
		if kind == network.KindAccess {
			n.Access = &network.Access{Kind: network.TwoWayCleanout, Size: 4, Room: "Yard"}
		}
		if kind == network.KindJunction {
			n.Junction = &network.Junction{Kind: network.Wye}
		}
		net.Nodes = append(net.Nodes, n)
		return n.ID
	}
	pipe := func(from, to network.NodeID, size unit.Size) bool {
		if len(net.Pipes) >= pipes {
			return false
		}
		net.Pipes = append(net.Pipes, network.Pipe{
			ID: network.PipeID(fmt.Sprint("p", len(net.Pipes))), From: from, To: to, Size: size, Material: network.PVC40, Class: network.BuildingDrain,
		})
		return true
	}
	outlet := node(network.KindOutlet, "Works", 0, 0)
	for street := 0; len(net.Pipes) < pipes; street++ {
		below, y := outlet, 60*float64(street)
		for house := range 25 {
			x := 20 * float64(house+1)
			main := node(network.KindAccess, fmt.Sprintf("MH-%d-%d", street+1, house+1), x, y)
			if !pipe(main, below, 8) {
				return s
			}
			below = main
			for _, side := range []float64{1, -1} {
				stem := node(network.KindAccess, fmt.Sprintf("CO-%d-%d", street+1, house+1), x, y+6*side)
				pipe(stem, main, 4)
				for k := range 6 {
					tee := node(network.KindJunction, "", x, y+side*(8+3*float64(k)))
					end := node(network.KindFixture, fmt.Sprintf("WC-%d", k+1), x+6-12*float64(k%2), y+side*(9.5+3*float64(k)))
					pipe(tee, stem, 4)
					pipe(end, tee, 3)
					stem = tee
				}
			}
		}
	}
	return s
}
