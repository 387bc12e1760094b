package punch

import (
	"flag"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the goldens anew")

func golden(t *testing.T, name string, write func(f *os.File) error) {
	t.Helper()
	if !*update {
		return
	}
	require.NoError(t, os.MkdirAll("testdata", 0o755))
	f, err := os.Create(filepath.Join("testdata", name))
	require.NoError(t, err)
	require.NoError(t, write(f))
	require.NoError(t, f.Close())
}

// TestListLooksRight has a row of each gravity, one with a button.
func TestListLooksRight(t *testing.T) {
	for name, dark := range map[string]bool{"day": false, "night": true} {
		l, _, w := shown(t, newBench(t, "restaurant"), dark, 1)
		w.Resize(fyne.NewSize(320, 480))
		many(l, gravities)
		l.rows[1].step = &Step{Say: "Add the cleanout"}
		l.fill()
		l.heading.SetText(heading(l.rows, nil, l.desk.Units()))
		l.Refresh()
		golden(t, "list_"+name+".png", func(f *os.File) error { return png.Encode(f, w.Canvas().Capture()) })
		test.AssertRendersToImage(t, "list_"+name+".png", w.Canvas())
	}
}

func TestListOfTheRestaurant(t *testing.T) {
	b := newBench(t, "restaurant")
	_, _, w := shown(t, b, false, 1)
	b.planned()
	golden(t, "list.xml", func(f *os.File) error { _, err := f.WriteString(test.RenderToMarkup(w.Canvas())); return err })
	test.AssertRendersToMarkup(t, "list.xml", w.Canvas())
}
