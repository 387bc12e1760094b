package site

import (
	"fmt"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/unit"
)

func TestSaveAndOpen(t *testing.T) {
	file := filepath.Join(t.TempDir(), "bakery"+Extension)
	s := wholeSite(t)
	require.NoError(t, Save(file, s))
	back, err := Open(file)
	require.NoError(t, err)
	assert.Equal(t, s, back)
	assertAlone(t, file)
}

// assertAlone asks that no temporary file was left beside a file.
func assertAlone(t *testing.T, file string) {
	t.Helper()
	names, err := os.ReadDir(filepath.Dir(file))
	require.NoError(t, err)
	require.Len(t, names, 1)
	assert.Equal(t, filepath.Base(file), names[0].Name())
}

func TestSaveKeepsPermissions(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("permissions are of another kind")
	}
	file := filepath.Join(t.TempDir(), "private"+Extension)
	require.NoError(t, os.WriteFile(file, []byte("old"), 0o600))
	require.NoError(t, Save(file, wholeSite(t)))
	info, err := os.Stat(file)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm())
}

func TestSaveThroughALink(t *testing.T) {
	dir := t.TempDir()
	file, link := filepath.Join(dir, "real"+Extension), filepath.Join(dir, "link"+Extension)
	require.NoError(t, os.WriteFile(file, []byte("old"), 0o600))
	if err := os.Symlink(file, link); err != nil {
		t.Skip("no links here")
	}
	require.NoError(t, Save(link, wholeSite(t)))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&fs.ModeSymlink, "it is still a link")
	_, err = Open(file)
	assert.NoError(t, err)
}

// TestSaveRefuses asks that nothing that could not be opened again takes the
// place of a good document.
func TestSaveRefuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(*Site)
		want  string
	}{
		{"no number", func(s *Site) { s.Network.Nodes[0].At.X = unit.Length(math.Inf(1)) }, "no number that a file can hold"},
		{"out of range", func(s *Site) { s.Network.Pipes[0].Size = 7 }, "network.pipes[p1].size: found 7 in nominal"},
		{"lost end", func(s *Site) { s.Network.Nodes = s.Network.Nodes[:6] }, `network.pipes[p5].from: found "f1"`},
		{"no UTF-8", func(s *Site) { s.Job.Title = "\xff" }, "invalid UTF-8"},
	} {
		t.Run(c.name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "good"+Extension)
			require.NoError(t, Save(file, wholeSite(t)))
			bad := wholeSite(t)
			c.spoil(bad)
			err := Save(file, bad)
			require.ErrorContains(t, err, c.want)
			require.ErrorContains(t, err, "save "+file)
			back, err := Open(file)
			require.NoError(t, err)
			assert.Equal(t, wholeSite(t), back)
			assertAlone(t, file)
		})
	}
}

func TestSaveWhereNothingCanBe(t *testing.T) {
	err := Save(filepath.Join(t.TempDir(), "no such folder", "x"+Extension), wholeSite(t))
	assert.ErrorIs(t, err, fs.ErrNotExist)
	assert.ErrorContains(t, err, "no such folder")
}

func TestOpenSaysWhichFile(t *testing.T) {
	_, err := Open(filepath.Join(t.TempDir(), "gone"+Extension))
	assert.ErrorIs(t, err, fs.ErrNotExist)

	file := filepath.Join(t.TempDir(), "bad"+Extension)
	require.NoError(t, os.WriteFile(file, []byte(change(t, `"size": 1.5`, `"size": 9`)), 0o600))
	_, err = Open(file)
	assert.ErrorContains(t, err, "bad.linemap: network.pipes[p5].size: found 9")
	var e *LoadError
	assert.ErrorAs(t, err, &e)
}

// saveForever is the name under which the test program saves one document
// after another into the file named, until it is killed.
const saveForever = "LINEMAP_TEST_SAVE_FOREVER"

func TestMain(m *testing.M) {
	if file := os.Getenv(saveForever); file != "" {
		s, err := Decode([]byte(whole))
		for n := 0; err == nil; n++ {
			s.Job.Title = fmt.Sprint("Save ", n)
			err = Save(file, s)
			if n == 0 {
				fmt.Println("saving")
			}
		}
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// TestKilledWhileSaving kills a process that saves without a pause, at one
// instant after another: whatever it was doing, the file opens and is whole.
func TestKilledWhileSaving(t *testing.T) {
	if testing.Short() {
		t.Skip("kills processes for a second or two")
	}
	self, err := os.Executable()
	require.NoError(t, err)
	dir := t.TempDir()
	file := filepath.Join(dir, "killed"+Extension)
	want := wholeSite(t)
	require.NoError(t, Save(file, want))
	for i := range 25 {
		child := exec.Command(self)
		child.Env = append(os.Environ(), saveForever+"="+file, "TMPDIR="+dir) // what it leaves half written goes with dir
		out, err := child.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, child.Start())
		_, err = out.Read(make([]byte, 1))
		require.NoError(t, err, "it never saved")
		time.Sleep(time.Duration(i) * 1700 * time.Microsecond)
		require.NoError(t, child.Process.Kill(), "it was still saving")
		_ = child.Wait() // reports the kill

		got, err := Open(file)
		require.NoError(t, err)
		require.Regexp(t, `^Save \d+$`, got.Job.Title, "the child did save")
		got.Job.Title = want.Job.Title
		require.Equal(t, want, got)
	}
}
