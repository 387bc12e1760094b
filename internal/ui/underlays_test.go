package ui

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/hand"
)

func (b *bench) underlay() *site.Underlay {
	b.t.Helper()
	b.until("a floor plan", func() bool { return len(b.desk.Site().Underlays) > 0 })
	return &b.desk.Site().Underlays[0]
}

// A floor plan comes to lie in the middle, and is scaled by two clicks on it and
// the length between them.
func TestFloorPlanIsScaled(t *testing.T) {
	b := empty(t)
	b.addUnderlay(pictureJPEG(t, t.TempDir(), "hall.jpg"))
	u := b.underlay()
	assert.NotEmpty(t, u.Data, "a small one goes into the site file")
	assert.Equal(t, hand.NewScale("").Name(), b.board.Tool().Name(), "next it is scaled")
	assert.Contains(t, b.status.hint.Text, "Click one end", "the line at the foot says how, and no longer that it is read")
	was := *u
	b.click(ft(-10, 0))
	b.click(ft(20, 0))
	assert.Contains(t, b.dialogText(), "True length (now 30 ft 0 in)")
	b.typed("15")
	b.key(fyne.KeyReturn)
	u = b.underlay()
	assert.InDelta(t, 0.5, float64(u.Scale/was.Scale), 1e-3)
	assert.InDelta(t, -5, u.At.X.Feet(), 0.1, "it shrinks about the first click")
	assert.Equal(t, "Pick", b.board.Tool().Name())
	b.command("Undo")
	assert.Equal(t, was.Scale, b.underlay().Scale)
}

func TestFloorPlanFromAPDF(t *testing.T) {
	for _, program := range []string{"pdfinfo", "pdftoppm"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Skipf("%s is missing: install poppler-utils", program)
		}
	}
	dir := t.TempDir()
	b := empty(t)
	b.addUnderlay(picturePDF(t, dir, "one.pdf", 1))
	u := b.underlay()
	assert.NotEmpty(t, u.Data)
	assert.Contains(t, u.Label, "one.pdf")
	b.command("Undo")

	b.addUnderlay(picturePDF(t, dir, "two.pdf", 2))
	b.until("the question for the page", func() bool { return b.dialog() != nil })
	assert.Contains(t, b.dialogText(), "1 to 2")
	take := func() *widget.Button {
		return find(b.dialog(), func(w *widget.Button) bool { return w.Text == "Take it" })
	}
	for _, wrong := range []string{"0", "3", "one", ""} {
		b.entry(0).SetText(wrong)
		assert.True(t, take().Disabled(), "page %q", wrong)
	}
	b.entry(0).SetText("2")
	b.press("Take it")
	u = b.underlay()
	assert.Contains(t, u.Label, "two.pdf, page 2")
}

func TestFloorPlanThatIsNone(t *testing.T) {
	dir := t.TempDir()
	b := empty(t)
	was := b.bytes()
	for _, name := range []string{"text.png", "text.pdf"} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte("North is up."), 0o600))
		b.addUnderlay(path)
		b.until("the reason", func() bool { return b.dialog() != nil })
		assert.Contains(t, b.dialogText(), "The floor plan cannot be used")
		assert.Contains(t, b.dialogText(), name)
		b.press("Close")
	}
	assert.Equal(t, was, b.bytes())
}

// besideSite is a bench with a site in a folder and a floor plan beside it.
func besideSite(t *testing.T) *bench {
	b := empty(t)
	dir := t.TempDir()
	require.NoError(t, b.desk.SaveAs(filepath.Join(dir, "yard"+site.Extension)))
	picturePNG(t, dir, "plan.png")
	e, err := edit.Make("lay a floor plan", b.desk.Site(), func(d *edit.Draft) error {
		d.AddUnderlay(site.Underlay{File: "plan.png", Scale: 0.05, Dim: 0.5})
		return nil
	})
	require.True(t, b.do(e, err))
	b.rest()
	return b
}

func TestFloorPlanGoesIntoTheFile(t *testing.T) {
	b := besideSite(t)
	want, err := os.ReadFile(filepath.Join(filepath.Dir(b.desk.Path()), "plan.png"))
	require.NoError(t, err)
	b.command("Keep the floor plan in the site file")
	b.until("the bytes", func() bool { return len(b.desk.Site().Underlays[0].Data) > 0 })
	assert.Equal(t, want, []byte(b.desk.Site().Underlays[0].Data))
	assert.Empty(t, b.desk.Site().Underlays[0].File)
	b.command("Undo")
	assert.Equal(t, "plan.png", b.desk.Site().Underlays[0].File)
}

func TestFloorPlanComesAlong(t *testing.T) {
	b := besideSite(t)
	there := filepath.Join(t.TempDir(), "copy"+site.Extension)
	b.saveTo(there, nil)
	assert.Nil(t, b.dialog())
	assert.FileExists(t, filepath.Join(filepath.Dir(there), "plan.png"))
	saved, err := site.Open(there)
	require.NoError(t, err)
	assert.Equal(t, "plan.png", saved.Underlays[0].File)

	// One that is gone stays behind, and is told.
	require.NoError(t, os.Remove(filepath.Join(filepath.Dir(there), "plan.png")))
	again := filepath.Join(t.TempDir(), "again"+site.Extension)
	b.saveTo(again, nil)
	assert.Contains(t, b.dialogText(), "A floor plan stays behind")
	assert.FileExists(t, again)
}
