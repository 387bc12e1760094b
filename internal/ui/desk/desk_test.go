package desk

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// loop stands for the goroutine of the window: what is posted waits until the
// test runs it.
type loop chan func()

// until runs what is posted until done holds.
func (l loop) until(t *testing.T, done func() bool) {
	t.Helper()
	late := time.After(20 * time.Second)
	for !done() {
		select {
		case f := <-l:
			f()
		case <-late:
			t.Fatal("it never came about")
		}
	}
}

func newDesk(t *testing.T) (*Desk, loop) {
	t.Helper()
	tables, err := site.LoadTables()
	require.NoError(t, err)
	l := make(loop, 10000)
	d, err := New(tables, unit.US, func(f func()) { l <- f })
	require.NoError(t, err)
	return d, l
}

func (l loop) planned(t *testing.T, d *Desk) {
	t.Helper()
	l.until(t, func() bool { p := d.Planning(); return !p.Running && p.Revision == d.Revision() })
}

// addSpot is an edit that can always be made.
func addSpot(t *testing.T, d *Desk) *edit.Edit {
	t.Helper()
	e, err := edit.Make("place spot", d.Site(), func(dr *edit.Draft) error {
		dr.Made(edit.SpotRef(dr.AddSpot(site.Spot{Label: "Yard"})))
		return nil
	})
	require.NoError(t, err)
	return e
}

func TestPlanFollowsTheSketch(t *testing.T) {
	d, l := newDesk(t)
	require.NoError(t, d.OpenDemo("flats"))
	assert.True(t, d.Planning().Running)
	l.planned(t, d)
	first := d.Planning()
	assert.NotEmpty(t, first.Plan.Runs())
	assert.False(t, first.Stale)
	_, current := d.Findings()
	assert.True(t, current)

	var told Change
	d.Watch(func(c Change) { told |= c })
	d.Do(addSpot(t, d))
	assert.Equal(t, Document|File|Planned|Selected, told)
	assert.True(t, d.Planning().Stale, "the plan is of the sketch before")
	assert.Same(t, first.Plan, d.Planning().Plan)
	_, current = d.Findings()
	assert.False(t, current)
	l.planned(t, d)
	assert.False(t, d.Planning().Stale)
	assert.Len(t, d.Planning().Site.Spots, len(first.Site.Spots)+1)
}

func TestQuickEditsArePlannedOnce(t *testing.T) {
	d, l := newDesk(t)
	plans := 0
	last := d.Planning().Plan
	d.Watch(func(Change) {
		if p := d.Planning().Plan; p != last {
			last, plans = p, plans+1
		}
	})
	for range 20 {
		d.Do(addSpot(t, d))
	}
	l.planned(t, d)
	assert.Equal(t, 1, plans)
}

func TestStoppedPlanIsKept(t *testing.T) {
	d, l := newDesk(t)
	require.NoError(t, d.OpenDemo("school"))
	d.StopPlanning()
	l.planned(t, d)
	assert.NotEmpty(t, d.Planning().Plan.Runs(), "the best plan so far")
	assert.NoError(t, d.Planning().Err)
}

func TestAnImpossibleSiteCostsThePlanOnly(t *testing.T) {
	d, l := newDesk(t)
	_, err := guarded(func() (int, error) { panic("boom") })
	assert.EqualError(t, err, "a fault in the planner, please report it: boom", "one line: it is shown in the line of status")
	l.planned(t, d)
}

func TestUndoAndRedo(t *testing.T) {
	d, _ := newDesk(t)
	before, err := site.Encode(d.Site())
	require.NoError(t, err)
	d.Do(addSpot(t, d))
	assert.Equal(t, "place spot", d.NextUndo())
	assert.Equal(t, 1, d.Selection().Len(), "what was made is selected")
	assert.Equal(t, "place spot", d.Undo())
	assert.Zero(t, d.Selection().Len(), "what is gone is not selected")
	after, err := site.Encode(d.Site())
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
	assert.Equal(t, "place spot", d.NextRedo())
	assert.Equal(t, "place spot", d.Redo())
	assert.Empty(t, d.Redo())
	assert.Len(t, d.Site().Spots, 1)
}

func TestChangedMeansUnlikeItsFile(t *testing.T) {
	d, _ := newDesk(t)
	path := filepath.Join(t.TempDir(), "yard")
	assert.False(t, d.Changed())
	d.Do(addSpot(t, d))
	assert.True(t, d.Changed())
	require.NoError(t, d.SaveAs(path))
	assert.Equal(t, path+site.Extension, d.Path())
	assert.Equal(t, "yard", d.Name())
	assert.False(t, d.Changed())
	d.Undo()
	assert.True(t, d.Changed())
	d.Redo()
	assert.False(t, d.Changed(), "as it was saved")
	d.Undo()
	d.Do(addSpot(t, d))
	d.Undo()
	assert.True(t, d.Changed(), "what was saved is lost to undo")

	assert.Error(t, d.Open(filepath.Join(t.TempDir(), "none.linemap")))
	assert.Equal(t, path+site.Extension, d.Path(), "a file that cannot be read changes nothing")
	require.NoError(t, d.Open(path+site.Extension))
	assert.Len(t, d.Site().Spots, 1)
	assert.Error(t, d.SaveAs(filepath.Join(t.TempDir(), "no", "such", "folder")))
}

func TestLevels(t *testing.T) {
	d, _ := newDesk(t)
	assert.Empty(t, d.Level())
	require.NoError(t, d.OpenDemo("flats"))
	outlet := ""
	for _, n := range d.Site().Network.Nodes {
		if n.Kind == network.KindOutlet {
			outlet = n.Level
			break
		}
	}
	assert.Equal(t, outlet, d.Level(), "a site opens on the level of its outlet")
	d.Select(edit.Select(edit.SpotRef(d.Site().Spots[0].ID), edit.NodeRef("none")))
	assert.Equal(t, 1, d.Selection().Len(), "what is not there cannot be selected")
	other := d.Site().Network.Levels[0].Name
	if other == outlet {
		other = d.Site().Network.Levels[1].Name
	}
	d.SetLevel(other)
	assert.Equal(t, other, d.Level())
	assert.Zero(t, d.Selection().Len())
	d.SetLevel("none")
	assert.Equal(t, outlet, d.Level())
}

func TestRescueAfterACrash(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "rescue")
	d, l := newDesk(t)
	r, err := NewRescue(dir, d, func(err error) { t.Error(err) })
	require.NoError(t, err)
	assert.Empty(t, Left(dir))
	d.Do(addSpot(t, d))
	written := func() bool {
		files, _ := filepath.Glob(filepath.Join(dir, "*"+site.Extension))
		return len(files) == 1
	}
	l.until(t, func() bool {
		select { // the copy is written beside the loop
		case l <- func() {}:
		default:
		}
		time.Sleep(time.Millisecond)
		return written()
	})
	assert.Empty(t, Left(dir), "a program that runs holds its copy")

	require.NoError(t, r.lock.Unlock()) // as the system does when a program dies
	left := Left(dir)
	require.Len(t, left, 1)
	assert.Equal(t, "New site", left[0].Title)
	assert.WithinDuration(t, time.Now(), left[0].When, time.Minute)

	next, _ := newDesk(t)
	require.NoError(t, next.Recover(left[0]))
	assert.Len(t, next.Site().Spots, 1)
	assert.True(t, next.Changed(), "it has to be saved")
	left[0].Drop()
	assert.Empty(t, Left(dir))
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, files)
}

func TestNoCopyIsLeftOfWhatWasSaved(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "rescue")
	d, _ := newDesk(t)
	r, err := NewRescue(dir, d, nil)
	require.NoError(t, err)
	d.Do(addSpot(t, d))
	require.NoError(t, r.Now())
	require.NoError(t, d.SaveAs(filepath.Join(t.TempDir(), "saved.linemap")))
	r.Close()
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, files)
}

func TestBrokenCopiesAreTold(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "x.linemap"), []byte("{"), 0o600))
	left := Left(dir)
	require.Len(t, left, 1)
	d, _ := newDesk(t)
	assert.Error(t, d.Recover(left[0]))
	assert.Empty(t, Left(filepath.Join(dir, "none")))
}
