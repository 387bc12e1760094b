package ui

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/ui/hand"
)

// trap is a tool with a fault.
type trap struct{ hand.Tool }

func (trap) Handle(*hand.World, hand.Event) hand.Reply { panic("the trap is sprung") }

func TestFaultInATool(t *testing.T) {
	b := yard(t)
	was := b.bytes()
	b.board.SetTool(trap{hand.NewPick()})
	b.click(ft(0, 0))
	assert.Contains(t, b.dialogText(), "A fault in the program")
	assert.Contains(t, b.dialogText(), "the trap is sprung")
	assert.Contains(t, b.dialogText(), "A copy of the sketch is kept")
	copies, err := filepath.Glob(filepath.Join(b.folder, "rescue", "*"+site.Extension))
	require.NoError(t, err)
	require.Len(t, copies, 1)
	kept, err := os.ReadFile(copies[0])
	require.NoError(t, err)
	assert.Equal(t, was, string(kept))
}

func TestFaultInACommand(t *testing.T) {
	b := yard(t)
	b.guard(func() { panic(errors.New("broken")) })()
	assert.Contains(t, b.dialogText(), "broken")
	b.press("Close")
	b.typed("p")
	assert.Equal(t, "Pipe", b.board.Tool().Name(), "the window goes on")
}

// What the planner cannot do costs the plan, not the sketch.
func TestNoPlan(t *testing.T) {
	b := yard(t)
	clear(b.desk.Tables().Materials) // which no file and no edit can bring about
	b.do(edit.PlaceSpot(b.desk.Site(), ft(30, -30)))
	b.rest()
	assert.Equal(t, `No plan: pipe p1: material "pvc_sch40" has no row in the tables`, b.status.plan.Text)
	assert.Len(t, b.desk.Site().Spots, 2)
	b.exportDialog()
	assert.Contains(t, b.dialogText(), "There is no plan to put on paper")
}

func TestErrorsAreToldInTheStatusLine(t *testing.T) {
	b := yard(t)
	b.app.Clipboard().SetContent("a letter to my aunt")
	b.command("Paste")
	assert.True(t, b.status.sign.Visible())
	assert.Equal(t, b.status.said, b.status.hint.Text)
	assert.NotEmpty(t, b.status.said)
	b.selectOnly(west(b), east(b))
	b.command("Split pipe in the middle")
	assert.Equal(t, "Select one pipe to split it", b.status.hint.Text)
	b.command("Join two ends")
	assert.Equal(t, "Select the two ends to join, and nothing else", b.status.hint.Text)
	b.tell(nil)
	assert.Nil(t, b.dialog())
}

func TestNoFolderOfOnesOwn(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, err := New(newApp(), Options{Folder: file})
	assert.ErrorContains(t, err, "no copies can be kept against a crash")
	assert.ErrorContains(t, err, file)
}
