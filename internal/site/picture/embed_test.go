package picture

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
)

func TestEmbed(t *testing.T) {
	p, err := Read(put(t, "plan.png", pngOf(t, plan(40, 30))))
	require.NoError(t, err)
	u, err := p.Embed()
	require.NoError(t, err)
	assert.Equal(t, site.Underlay{Label: "plan.png", Data: p.Data}, u)

	large := &Picture{Name: "scan.png", Data: make([]byte, MaxEmbedded+1<<19)}
	_, err = large.Embed()
	assert.EqualError(t, err, "scan.png: the picture has 20.5 MB, at most 20 MB go into a site file; keep it beside the file")
}

func TestBeside(t *testing.T) {
	data := pngOf(t, plan(40, 30))
	document := filepath.Join(t.TempDir(), "job.linemap")
	beside := func(name string) string { return filepath.Join(filepath.Dir(document), name) }
	p, err := Read(put(t, "plan.png", data))
	require.NoError(t, err)
	u, err := p.Beside(document)
	require.NoError(t, err)
	assert.Equal(t, "plan.png", u.File)
	got, err := os.ReadFile(beside("plan.png"))
	require.NoError(t, err)
	assert.Equal(t, data, got)

	u, err = p.Beside(document)
	require.NoError(t, err)
	assert.Equal(t, "plan.png", u.File, "it is there already")

	other := &Picture{Name: "plan.png", Data: jpegOf(t, plan(8, 8))}
	u, err = other.Beside(document)
	require.NoError(t, err)
	assert.Equal(t, "plan.jpg", u.File, "by what it is")
	other.Data = append(bytes.Clone(data), 0)
	u, err = other.Beside(document)
	require.NoError(t, err)
	assert.Equal(t, "plan 2.png", u.File, "another picture of that name is not written over")
	got, err = os.ReadFile(beside("plan.png"))
	require.NoError(t, err)
	assert.Equal(t, data, got)

	inside, err := Read(beside("plan.png"))
	require.NoError(t, err)
	u, err = inside.Beside(document)
	require.NoError(t, err)
	assert.Equal(t, "plan.png", u.File, "it lies there")
	require.NoError(t, os.Mkdir(beside("plans"), 0o700))
	require.NoError(t, os.WriteFile(beside("plans/a b.png"), data, 0o600))
	inside, err = Read(beside("plans/a b.png"))
	require.NoError(t, err)
	u, err = inside.Beside(document)
	require.NoError(t, err)
	assert.Equal(t, "plans/a b.png", u.File)

	var c Cache
	u.ID = "u1"
	_, err = c.Load(&u, filepath.Dir(document))
	assert.NoError(t, err)
}

func TestBesideNothing(t *testing.T) {
	p := &Picture{Name: "plan.png", Data: pngOf(t, plan(4, 4))}
	_, err := p.Beside("")
	assert.ErrorContains(t, err, "save the site first")
	_, err = p.Beside(filepath.Join(t.TempDir(), "gone", "job.linemap"))
	assert.ErrorContains(t, err, "plan.png: it cannot be copied beside the site file: no such file or directory")
}

// TestFileNames asks that whatever a picture is called becomes a file name that
// a document can hold.
func TestFileNames(t *testing.T) {
	for name, want := range map[string]string{
		"plan.PNG":               "plan.png",
		"floors.pdf, page 3":     "floors-pdf page 3.png",
		`C:\plans\a.png`:         "C--plans-a.png",
		"../../a.png":            "------a.png",
		"":                       "plan.png",
		".png":                   "-png.png",
		"rez-de-chaussée":        "rez-de-chaussée.png",
		"a\x00b\nc":              "a-b-c.png",
		strings.Repeat("é", 200): strings.Repeat("é", 60) + ".png",
	} {
		p := &Picture{Name: name, Data: []byte("\x89PNG")}
		got := p.fileName(0)
		assert.Equal(t, want, got, name)
		assert.True(t, nameable(got), name)
		assert.True(t, nameable(p.fileName(7)), name)
	}
}
