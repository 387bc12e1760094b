package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// session matches a terminal session of the README: a command of the program,
// and what it printed.
var session = regexp.MustCompile("(?s)```console\n\\$ bin/linemap ([^\n]*)\n(.*?)```\n")

// TestReadmeShowsRealOutput runs every command that the README shows with its
// output, from a folder that looks like the project's root. The map that it
// shows must be the one that was written on the way.
func TestReadmeShowsRealOutput(t *testing.T) {
	root, err := filepath.Abs(filepath.Join("..", ".."))
	require.NoError(t, err)
	path := filepath.Join(root, "README.md")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	require.NoError(t, os.Symlink(filepath.Join(root, "assets"), "assets"))

	readme := string(data)
	shown := session.FindAllStringSubmatch(readme, -1)
	require.Len(t, shown, 2)
	for _, s := range shown {
		code, stdout, stderr := call(t.Context(), strings.Fields(s[1])...)
		require.Equal(t, exitOK, code, stderr) // stderr may tell progress on a slow machine
		if *update {
			readme = strings.Replace(readme, s[0], "```console\n$ bin/linemap "+s[1]+"\n"+stdout+"```\n", 1)
			continue
		}
		assert.Equal(t, s[2], stdout, "refresh it with make goldens: linemap %s", s[1])
	}

	maps, err := filepath.Glob(filepath.Join("out", "restaurant", "*-map.svg"))
	require.NoError(t, err)
	require.Len(t, maps, 1)
	drawn, err := os.ReadFile(maps[0])
	require.NoError(t, err)
	picture := filepath.Join(root, "docs", "restaurant-map.svg")
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(readme), 0o600))
		require.NoError(t, os.WriteFile(picture, drawn, 0o644))
	}
	kept, err := os.ReadFile(picture)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(drawn, kept), "docs/restaurant-map.svg is out of date: refresh it with make goldens")
}

// TestReadmeQuotesTheDemo finds what the README quotes of the site file in the
// demo site.
func TestReadmeQuotesTheDemo(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	site, err := os.ReadFile(demo("restaurant"))
	require.NoError(t, err)
	quotes := regexp.MustCompile("(?s)```json\n(.*?)```\n").FindAllStringSubmatch(string(readme), -1)
	require.NotEmpty(t, quotes)
	for _, q := range quotes {
		assert.Contains(t, string(site), q[1])
	}
}
