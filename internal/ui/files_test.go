package ui

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
	"linemap/internal/site/edit"
)

// demoFile is a demo site in a file.
func demoFile(t *testing.T, name string) string {
	s, err := site.Demo(name)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), name+site.Extension)
	require.NoError(t, site.Save(path, s))
	return path
}

// spoiled is a bench with a site in a file and a change that is not saved.
func spoiled(t *testing.T) *bench {
	b := newBench(t)
	b.open(demoFile(t, "restaurant"))
	require.Equal(t, "restaurant - linemap", b.win.Title())
	b.do(edit.PlaceSpot(b.desk.Site(), ft(5, -30)))
	require.Equal(t, "• restaurant - linemap", b.win.Title())
	return b
}

func TestNothingIsLostUnasked(t *testing.T) {
	other := demoFile(t, "flats")
	for _, c := range []struct {
		answer, name string
		changed      bool
		saved        bool
	}{
		{"Go back", "restaurant", true, false},
		{"Lose the changes", "flats", false, false},
		{"Save", "flats", false, true},
	} {
		t.Run(c.answer, func(t *testing.T) {
			b := spoiled(t)
			path, spots := b.desk.Path(), len(b.desk.Site().Spots)
			b.open(other)
			assert.Contains(t, b.dialogText(), "restaurant has changes that are not saved.")
			b.press(c.answer)
			assert.Nil(t, b.dialog())
			assert.Equal(t, c.name, b.desk.Name())
			assert.Equal(t, c.changed, b.desk.Changed())
			file, err := site.Open(path)
			require.NoError(t, err)
			assert.Equal(t, c.saved, len(file.Spots) == spots)
			if !c.changed {
				assert.Equal(t, other, b.prefs.recent()[0])
			}
		})
	}
}

func TestCloseAsksAndRemembers(t *testing.T) {
	b := spoiled(t)
	b.win.Resize(fyne.NewSize(1100, 720))
	b.split.SetOffset(0.7)
	b.close()
	b.press("Go back")
	assert.False(t, b.closed)
	b.close()
	b.press("Lose the changes")
	assert.True(t, b.closed)
	assert.Equal(t, fyne.NewSize(1100, 720), b.prefs.size())
	assert.InDelta(t, 0.7, b.prefs.float("split", 0), 1e-6)
	left, err := os.ReadDir(filepath.Join(b.folder, "rescue"))
	require.NoError(t, err)
	assert.Empty(t, left, "no copy is kept of what was given up on purpose")
}

// The dialogs of files, as far as they are Fyne's own, with the keys and buttons
// that they have.
func TestSaveAsAndOpenAgain(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	b := yard(t)
	was := b.bytes()
	b.command("Save") // it has no file yet
	assert.Contains(t, textOf(b.entry(0)), "New site"+site.Extension)
	b.press("Save")
	path := filepath.Join(dir, "New site"+site.Extension)
	require.FileExists(t, path)
	assert.False(t, b.desk.Changed())
	assert.Equal(t, "New site - linemap", b.win.Title())

	b.newSite()
	assert.Empty(t, b.desk.Site().Network.Pipes)
	b.command("Open…")
	item := find(b.dialog(), func(o fyne.CanvasObject) bool {
		_, ok := o.(fyne.Tappable)
		return ok && strings.HasSuffix(textOf(o), "New site")
	})
	require.NotNil(t, item, "%s", b.dialogText())
	item.(fyne.Tappable).Tapped(&fyne.PointEvent{})
	b.press("Open")
	assert.Equal(t, was, b.bytes())
	assert.Equal(t, path, b.desk.Path())
}

func TestSaveTo(t *testing.T) {
	dir := t.TempDir()
	b := yard(t)
	path := filepath.Join(dir, "yard")
	require.NoError(t, os.WriteFile(path, nil, 0o600)) // as the dialog makes it
	b.saveTo(path, nil)
	assert.NoFileExists(t, path, "no empty file stays")
	assert.FileExists(t, path+site.Extension)
	assert.Equal(t, "yard - linemap", b.win.Title())
	assert.Contains(t, b.status.said, "Saved to "+path+site.Extension)

	// What is there under the whole name is not written over unasked.
	precious := filepath.Join(dir, "precious"+site.Extension)
	require.NoError(t, os.WriteFile(precious, []byte("dear"), 0o600))
	for _, answer := range []string{"Go back", "Write over it"} {
		b.saveTo(strings.TrimSuffix(precious, site.Extension), nil)
		assert.Contains(t, b.dialogText(), precious)
		data, err := os.ReadFile(precious)
		require.NoError(t, err)
		assert.Equal(t, "dear", string(data))
		b.press(answer)
	}
	saved, err := site.Open(precious)
	require.NoError(t, err)
	assert.Len(t, saved.Network.Pipes, 2)
}

func TestFileNames(t *testing.T) {
	for title, want := range map[string]string{
		"Corner Café": "Corner Café", " a/b\\c:d*e?f ": "a-b-c-d-e-f", "": "site", "..": "site", "x\ny": "x-y",
	} {
		assert.Equal(t, want, fileName(title), "%q", title)
	}
}

func TestSaveWhereNothingCanBeWritten(t *testing.T) {
	b := spoiled(t)
	dir := filepath.Dir(b.desk.Path())
	require.NoError(t, os.RemoveAll(dir))
	was := b.bytes()
	went := false
	b.save(func() { went = true })
	assert.False(t, went, "what was to follow waits")
	text := b.dialogText()
	assert.Contains(t, text, "The site cannot be saved")
	assert.Contains(t, text, "no such file or directory")
	assert.Contains(t, text, "Nothing was changed.")
	b.press("Close")
	assert.True(t, b.desk.Changed())
	assert.Equal(t, was, b.bytes())
}

func TestOpenWhatIsNoSite(t *testing.T) {
	dir := t.TempDir()
	put := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	whole, err := os.ReadFile(demoFile(t, "restaurant"))
	require.NoError(t, err)
	wide := strings.Replace(string(whole), `"size": 4`, `"size": 4000000`, 1)
	require.NotEqual(t, string(whole), wide)
	for name, c := range map[string]struct {
		path string
		want []string
	}{
		"not there": {filepath.Join(dir, "gone"+site.Extension), []string{"The site cannot be opened", "gone" + site.Extension, "no such file"}},
		"a folder":  {dir, []string{"The site cannot be opened", dir}},
		"cut off":   {put("cut"+site.Extension, string(whole[:len(whole)/2])), []string{"The site cannot be read", "Nothing of it was loaded."}},
		"too wide":  {put("wide"+site.Extension, wide), []string{"The site cannot be read", "size", "4000000", "must be one of"}},
		"no JSON":   {put("text"+site.Extension, "North is up."), []string{"The site cannot be read"}},
		"empty":     {put("empty"+site.Extension, ""), []string{"cannot be"}},
	} {
		t.Run(name, func(t *testing.T) {
			b := yard(t)
			was := b.bytes()
			b.open(c.path)
			b.press("Lose the changes")
			for _, want := range c.want {
				assert.Contains(t, b.dialogText(), want)
			}
			assert.Contains(t, b.dialogText(), c.path, "it names the file")
			assert.Equal(t, was, b.bytes(), "nothing was changed")
			assert.True(t, b.desk.Changed())
			assert.Empty(t, b.desk.Path())
			assert.Empty(t, b.prefs.recent())
		})
	}
}

func TestDroppedFiles(t *testing.T) {
	b := empty(t)
	dir := t.TempDir()
	drop := func(paths ...string) {
		var files []fyne.URI
		for _, p := range paths {
			files = append(files, storage.NewFileURI(p))
		}
		b.dropped(files)
	}
	drop(picturePNG(t, dir, "one.png"), pictureJPEG(t, dir, "two.JPG"))
	b.until("both floor plans", func() bool { return len(b.desk.Site().Underlays) == 2 })

	note := filepath.Join(dir, "note.txt")
	require.NoError(t, os.WriteFile(note, []byte("North is up."), 0o600))
	drop(note)
	assert.Contains(t, b.dialogText(), "This file is of no use here")
	assert.Contains(t, b.dialogText(), "note.txt")
	b.press("Close")

	drop(demoFile(t, "school"))
	b.press("Lose the changes")
	assert.Equal(t, "school", b.desk.Name())
}

// Copies are what a crash left: the files that a program kept while it ran.
func TestCopiesAfterACrash(t *testing.T) {
	crashed := spoiled(t)
	lost := crashed.bytes()
	require.NoError(t, crashed.rescue.Now())
	folder := t.TempDir()
	require.NoError(t, os.CopyFS(filepath.Join(folder, "rescue"), os.DirFS(filepath.Join(crashed.folder, "rescue"))))
	of := crashed.desk.Path()

	b := newBenchIn(t, folder)
	assert.Contains(t, b.dialogText(), "Sketches that were not saved")
	assert.Contains(t, b.dialogText(), "restaurant")
	b.press("Later")
	assert.Empty(t, b.desk.Site().Network.Pipes)

	b.offerCopies()
	b.press("Bring it back")
	assert.Nil(t, b.dialog())
	assert.Equal(t, lost, b.bytes())
	assert.Equal(t, of, b.desk.Path(), "it is saved where it came from")
	assert.True(t, b.desk.Changed())
	b.rest()
	b.command("Save")
	saved, err := os.ReadFile(of)
	require.NoError(t, err)
	assert.Equal(t, lost, string(saved))
	b.offerCopies()
	assert.Nil(t, b.dialog(), "what was brought back is not offered again")
}

func TestCopiesThrownAway(t *testing.T) {
	crashed := spoiled(t)
	require.NoError(t, crashed.rescue.Now())
	folder := t.TempDir()
	require.NoError(t, os.CopyFS(filepath.Join(folder, "rescue"), os.DirFS(filepath.Join(crashed.folder, "rescue"))))
	b := newBenchIn(t, folder)
	b.press("Throw it away")
	assert.Nil(t, b.dialog(), "with the last copy the dialog goes")
	b.offerCopies()
	assert.Nil(t, b.dialog())
}

// A window that is closed again while it asks does not ask twice.
func TestOneQuestionAtATime(t *testing.T) {
	b := yard(t)
	require.True(t, b.desk.Changed())
	b.close()
	b.close()
	b.command("New")
	require.Len(t, b.win.Canvas().Overlays().List(), 1)
	b.key(fyne.KeyEscape)
	require.Nil(t, b.dialog())
	b.close()
	require.NotNil(t, b.dialog(), "it asks again when the question was put aside")
	b.press("Go back")
	require.Nil(t, b.dialog())
	b.close()
	b.press("Lose the changes")
	assert.True(t, b.closed)
}

// Escape closes a dialog also while one types into it.
func TestEscapeFromAField(t *testing.T) {
	b := yard(t)
	was := b.bytes()
	b.selectAll()
	for _, name := range []string{"Turn by…", "Export papers…"} {
		b.command(name)
		require.NotNil(t, b.dialog(), name)
		b.typed("4")
		b.key(fyne.KeyEscape)
		assert.Nil(t, b.dialog(), name)
	}
	assert.Equal(t, was, b.bytes())
	b.typed("p")
	assert.Equal(t, "Pipe", b.board.Tool().Name(), "the keys are the board's again")
}

// One types a name over the name that is offered, not before it.
func TestTypingNamesTheFile(t *testing.T) {
	b := demo(t, "restaurant")
	b.command("Save as…")
	name, ok := b.win.Canvas().Focused().(*widget.Entry)
	require.True(t, ok, "the name has the keys")
	require.NotEmpty(t, name.Text)
	b.typed("mine")
	assert.Equal(t, "mine", name.Text)
}

// What went wrong has the line at the foot to itself: what to do stands at its end.
func TestAFaultHasTheWholeLine(t *testing.T) {
	b := demo(t, "restaurant")
	b.move(ft(0, 0))
	require.NotEmpty(t, b.status.at.Text)
	b.tell(errors.New("an outlet ends a pipe: place it at a free end"))
	assert.Equal(t, "An outlet ends a pipe: place it at a free end", b.status.hint.Text)
	assert.Empty(t, b.status.at.Text)
	b.status.note("Saved")
	assert.NotEmpty(t, b.status.at.Text)
}
