package main

import (
	"context"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// onScreen asks for the test of the real window, which needs Xvfb and xdotool:
// `make screen` sets it. Screenshots go to the folder that it names.
const onScreen = "LINEMAP_SCREEN"

// screen is a virtual display with the program on it, driven by key and mouse.
type screen struct {
	t       *testing.T
	display string
	program string // the built program
	home    string
	shots   string
	cmd     *exec.Cmd
	log     *strings.Builder
	ended   chan struct{} // closed when the program has ended
}

func newScreen(t *testing.T, w, h int) *screen {
	t.Helper()
	shots := os.Getenv(onScreen)
	if shots == "" {
		t.Skipf("set %s to a folder for screenshots to drive the real window", onScreen)
	}
	require.NoError(t, os.MkdirAll(shots, 0o755))
	s := &screen{t: t, home: t.TempDir(), shots: shots}
	s.program = filepath.Join(s.home, "linemap")
	build, err := exec.Command("go", "build", "-o", s.program, ".").CombinedOutput()
	require.NoError(t, err, "%s", build)

	// Xvfb picks a free display and writes its number.
	r, number, err := os.Pipe()
	require.NoError(t, err)
	x := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", fmt.Sprintf("%dx%dx24", w, h), "-nolisten", "tcp")
	x.ExtraFiles = []*os.File{number}
	require.NoError(t, x.Start())
	t.Cleanup(func() {
		_ = x.Process.Kill()
		_ = x.Wait()
	})
	require.NoError(t, number.Close())
	var n int
	_, err = fmt.Fscan(r, &n)
	require.NoError(t, err, "Xvfb did not start")
	s.display = fmt.Sprintf(":%d", n)
	return s
}

// start runs the program until its window is there.
func (s *screen) start(args ...string) {
	s.t.Helper()
	// On a busy machine the display may say that it is there before it takes
	// every client.
	for try := 0; ; try++ {
		s.log = &strings.Builder{}
		s.cmd = exec.Command(s.program, args...)
		s.cmd.Env = append(os.Environ(), "DISPLAY="+s.display, "WAYLAND_DISPLAY=", "HOME="+s.home, "XDG_CONFIG_HOME="+filepath.Join(s.home, "config"), "LIBGL_ALWAYS_SOFTWARE=1")
		s.cmd.Stderr = s.log
		began := time.Now()
		require.NoError(s.t, s.cmd.Start())
		cmd, ended := s.cmd, make(chan struct{})
		s.ended = ended
		go func() {
			_ = cmd.Wait()
			close(ended)
		}()
		s.t.Cleanup(func() { _ = cmd.Process.Kill() })
		shown := false
		s.eventually("a window", func() bool {
			shown = s.x("search", "--onlyvisible", "--name", "linemap") == nil
			return shown || s.over()
		})
		if shown {
			s.t.Logf("window after %v", time.Since(began).Round(time.Millisecond))
			break
		}
		require.Less(s.t, try, 3, "no window: %s", s.log)
		time.Sleep(2 * time.Second)
	}
	time.Sleep(time.Second)
}

// over reports whether the program has ended.
func (s *screen) over() bool {
	select {
	case <-s.ended:
		return true
	default:
		return false
	}
}

// kill ends the program as a power cut would.
func (s *screen) kill() {
	require.NoError(s.t, s.cmd.Process.Kill())
	<-s.ended
}

// x runs xdotool.
func (s *screen) x(args ...string) error {
	ctx, cancel := context.WithTimeout(s.t.Context(), 20*time.Second)
	defer cancel()
	cmd := exec.CommandContext(ctx, "xdotool", args...)
	cmd.Env = append(os.Environ(), "DISPLAY="+s.display)
	return cmd.Run()
}

const beat = 150 * time.Millisecond

func (s *screen) do(args ...string) {
	s.t.Helper()
	require.NoError(s.t, s.x(args...), "xdotool %v", args)
	time.Sleep(beat)
}

func (s *screen) move(x, y int)     { s.do("mousemove", fmt.Sprint(x), fmt.Sprint(y)) }
func (s *screen) key(k string)      { s.do("key", k) }
func (s *screen) text(words string) { s.do("type", "--delay", "40", words) }

func (s *screen) click(x, y int) {
	s.move(x, y)
	s.do("click", "1")
}

func (s *screen) eventually(what string, done func() bool) {
	s.t.Helper()
	for end := time.Now().Add(30 * time.Second); time.Now().Before(end); time.Sleep(beat) {
		if done() {
			return
		}
	}
	s.shot("failed")
	require.Failf(s.t, "never came about", "%s\n%s", what, s.log)
}

// shot keeps a picture of the screen and returns it.
func (s *screen) shot(name string) image.Image {
	s.t.Helper()
	path := filepath.Join(s.shots, name+".png")
	cmd := exec.Command("import", "-window", "root", path)
	cmd.Env = append(os.Environ(), "DISPLAY="+s.display)
	out, err := cmd.CombinedOutput()
	require.NoError(s.t, err, "%s", out)
	f, err := os.Open(path)
	require.NoError(s.t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(s.t, err)
	return img
}

// colours counts the colours of a picture, up to some.
func colours(img image.Image) int {
	seen := map[[3]uint32]bool{}
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y += 2 {
		for x := b.Min.X; x < b.Max.X; x += 2 {
			r, g, bl, _ := img.At(x, y).RGBA()
			seen[[3]uint32{r >> 8, g >> 8, bl >> 8}] = true
		}
	}
	return len(seen)
}

// TestWindowOnAScreen draws a small drain with mouse and keyboard in the real
// window, exports and saves it, kills the program in the middle of the work and
// gets the work back.
func TestWindowOnAScreen(t *testing.T) {
	s := newScreen(t, 1280, 800)
	path := filepath.Join(s.home, "yard.linemap")
	empty, err := site.New(unit.US)
	require.NoError(t, err)
	empty.Job.Title = "Yard"
	require.NoError(t, site.Save(path, empty))
	saved := func() *site.Site {
		doc, err := site.Open(path)
		require.NoError(t, err)
		return doc
	}

	s.start(path)
	// The main: 40 ft east, 1/8 bend, 10 ft, 1/8 bend back, 20 ft.
	s.key("p")
	s.click(303, 384) // a crossing of the grid
	s.move(500, 384)
	s.text("40")
	s.key("Return")
	s.move(640, 290)
	s.text("10")
	s.key("Return")
	s.move(750, 341)
	s.text("20")
	s.key("Return")
	s.key("Return")
	// The branch, from above down to the main.
	s.click(395, 293)
	s.move(440, 338)
	s.click(486, 384)
	s.shot("drawn")
	s.key("ctrl+s")
	s.eventually("the main and its branch", func() bool { return len(saved().Network.Pipes) == 3 })
	doc := saved()
	corners := 0
	g, _ := network.Trace(&doc.Network)
	for p := range doc.Network.Pipes {
		corners += len(g.Corners(p))
	}
	assert.Equal(t, 2, corners, "two bends")
	kinds := map[network.NodeKind]int{}
	for _, n := range doc.Network.Nodes {
		kinds[n.Kind]++
	}
	assert.Equal(t, 1, kinds[network.KindJunction], "a wye")

	s.key("o")
	s.click(303, 384)
	s.key("c")
	s.click(364, 384)
	s.key("s")
	s.click(364, 450)
	s.key("Escape")
	s.key("ctrl+s")
	s.eventually("an outlet, an opening and a spot", func() bool {
		d := saved()
		has := map[network.NodeKind]bool{}
		for _, n := range d.Network.Nodes {
			has[n.Kind] = true
		}
		return has[network.KindOutlet] && has[network.KindAccess] && len(d.Spots) == 1
	})
	time.Sleep(2 * time.Second)
	assert.Greater(t, colours(s.shot("planned")), 40, "there is a picture")

	s.key("ctrl+e")
	s.key("Return")
	papers := filepath.Join(s.home, "yard papers")
	s.eventually("the papers", func() bool {
		found, _ := filepath.Glob(filepath.Join(papers, "*.pdf"))
		return len(found) == 2
	})
	s.shot("exported")

	// A second spot, not saved; the copy against a crash is written, then the
	// program dies.
	s.key("s")
	s.click(420, 480)
	s.eventually("a copy against a crash", func() bool {
		found, _ := filepath.Glob(filepath.Join(s.home, "config", "linemap", "rescue", "*.linemap"))
		return len(found) == 1
	})
	s.kill()
	assert.Len(t, saved().Spots, 1)

	s.start()
	s.shot("offered")
	s.key("Tab")
	s.key("space")
	time.Sleep(time.Second)
	s.shot("recovered")
	s.key("ctrl+s")
	s.eventually("the second spot in the file", func() bool { return len(saved().Spots) == 2 })
	s.key("ctrl+q")
	s.eventually("the end of the program", func() bool { return s.x("search", "--onlyvisible", "--name", "linemap") != nil })
	left, _ := filepath.Glob(filepath.Join(s.home, "config", "linemap", "rescue", "*"))
	assert.Empty(t, left, "nothing is left to rescue")
	assert.NotContains(t, s.log.String(), "fault", s.log.String())
}

// TestDemosOnScreens looks at the demo sites on a small and on a large screen.
func TestDemosOnScreens(t *testing.T) {
	for _, size := range [][2]int{{1280, 800}, {1920, 1080}} {
		for _, name := range []string{"restaurant", "flats", "school"} {
			t.Run(fmt.Sprintf("%s-%d", name, size[0]), func(t *testing.T) {
				s := newScreen(t, size[0], size[1])
				s.start(demo(name))
				_ = s.x("search", "--onlyvisible", "--name", "linemap", "windowsize", fmt.Sprint(size[0]), fmt.Sprint(size[1]), "windowmove", "0", "0")
				time.Sleep(3 * time.Second)
				assert.Greater(t, colours(s.shot(fmt.Sprintf("%s-%d", name, size[0]))), 60)
			})
		}
	}
}
