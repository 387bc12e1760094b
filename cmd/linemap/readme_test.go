package main

import (
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
// output, from a folder that looks like the project's root.
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
	require.NotEmpty(t, shown)
	for _, s := range shown {
		_, stdout, stderr := call(t.Context(), strings.Fields(s[1])...)
		if *update {
			readme = strings.Replace(readme, s[0], "```console\n$ bin/linemap "+s[1]+"\n"+stdout+stderr+"```\n", 1)
			continue
		}
		assert.Equal(t, s[2], stdout+stderr, "refresh it with make goldens: linemap %s", s[1])
	}
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(readme), 0o600))
	}
}
