package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestExport(t *testing.T) {
	b := demo(t, "restaurant")
	dir := filepath.Join(t.TempDir(), "new", "papers")
	b.command("Export papers…")
	b.entry(0).SetText(dir)
	b.press("Write them")
	b.until("the papers", func() bool { return strings.Contains(b.status.said, "papers written to "+dir) })
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	ends := map[string]int{}
	for _, f := range files {
		data, err := os.ReadFile(filepath.Join(dir, f.Name()))
		require.NoError(t, err)
		assert.NotEmpty(t, data, f.Name())
		for _, paper := range []string{"run-sheet.pdf", "map.pdf", "map.svg", "plan.csv", "plan.json"} {
			if strings.HasSuffix(f.Name(), paper) {
				ends[paper]++
			}
		}
	}
	assert.Equal(t, map[string]int{"run-sheet.pdf": 1, "map.pdf": 1, "map.svg": 1, "plan.csv": 1, "plan.json": 1}, ends)
}

func TestExportWhereNothingCanBeWritten(t *testing.T) {
	b := yard(t)
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	for dir, want := range map[string]string{
		filepath.Join(file, "papers"): filepath.Join(file, "papers"),
		"  ":                          "No folder was named.",
	} {
		b.command("Export papers…")
		b.entry(0).SetText(dir)
		b.press("Write them")
		b.until("the reason", func() bool { return b.dialog() != nil })
		assert.Contains(t, b.dialogText(), "The papers cannot be written")
		assert.Contains(t, b.dialogText(), want)
		b.press("Close")
	}
	b.command("Export papers…")
	walkChecks(b, func(c *widget.Check) { c.SetChecked(false) })
	b.press("Write them")
	assert.Contains(t, b.dialogText(), "No paper was chosen.")
}

func walkChecks(b *bench, do func(*widget.Check)) {
	find(b.dialog(), func(c *widget.Check) bool {
		do(c)
		return false
	})
}

// No paper is made of a plan that the sketch has outrun.
func TestPapersAreOfTheSketchAsItStands(t *testing.T) {
	b := yard(t)
	b.selectOnly(west(b))
	b.delete()
	require.True(t, b.desk.Planning().Stale)
	b.exportDialog()
	assert.Nil(t, b.dialog())
	assert.Contains(t, b.status.said, "The plan is still in the making")
	b.rest()
	b.exportDialog()
	assert.Contains(t, b.dialogText(), "Export papers")
}

func TestPrintWithoutAViewer(t *testing.T) {
	b := yard(t)
	t.Setenv("PATH", t.TempDir())
	t.Setenv("TMPDIR", t.TempDir())
	b.command("Print map…")
	b.until("the reason", func() bool { return b.dialog() != nil })
	assert.Contains(t, b.dialogText(), "The map cannot be printed")
	assert.Contains(t, b.dialogText(), "neither xdg-open nor lp")
}

// Papers of a job without a title are called as its file is.
func TestPapersAreCalledAsTheFile(t *testing.T) {
	b := yard(t)
	b.saveTo(filepath.Join(t.TempDir(), "Oak Street 12.linemap"), nil)
	require.Empty(t, b.desk.Site().Job.Title)
	assert.Equal(t, "Oak Street 12", b.paperOptions().Name)
	b.openDemo("restaurant")
	b.rest()
	assert.Empty(t, b.paperOptions().Name, "else as the job")
}
