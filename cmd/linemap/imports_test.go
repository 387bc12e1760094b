package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// floors are the packages of the house, the ground floor first. A package may
// use those on lower floors, never one beside or above it; what lies in a
// folder of a package belongs to that package.
var floors = [][]string{
	{"unit"},
	{"network", "rig"},
	{"site"},
	{"route"},
	{"export"},
	{"ui"},
	{"cmd"},
}

// pure are the packages that neither read nor write anything.
var pure = []string{"unit", "network", "rig", "route"}

// outside are imports that pure packages have no use for.
var outside = []string{"io", "io/fs", "io/ioutil", "log", "net", "net/http", "os", "os/exec", "syscall", "unsafe"}

// room returns the package that an import path or a folder of ours belongs to:
// "route" for linemap/internal/route/audit, "" for what is not ours.
func room(path string) string {
	path, ours := strings.CutPrefix(path, "linemap/")
	if !ours {
		return ""
	}
	first, rest, _ := strings.Cut(path, "/")
	if first == "internal" {
		first, _, _ = strings.Cut(rest, "/")
	}
	return first
}

// floor returns the floor of a room, -1 for one that is not in the house.
func floor(room string) int {
	return slices.IndexFunc(floors, func(rooms []string) bool { return slices.Contains(rooms, room) })
}

func TestImportsGoOneWay(t *testing.T) {
	root := filepath.Join("..", "..")
	files := 0
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		rel, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		here := room("linemap/" + filepath.ToSlash(rel))
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		files++
		for _, spec := range file.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			checkImport(t, rel, here, imported)
		}
		return nil
	})
	require.NoError(t, err)
	assert.Greater(t, files, 50, "the walk has lost its way")
}

// checkImport holds one import of a file against the rules.
func checkImport(t *testing.T, file, here, imported string) {
	t.Helper()
	if slices.Contains(pure, here) {
		assert.NotContains(t, outside, imported, "%s: %s does no I/O", file, here)
	}
	there := room(imported)
	switch {
	case there == "" || there == here:
	case there == "assets":
		assert.Equal(t, "site", here, "%s: only site reads the assets", file)
	default:
		assert.NotEqual(t, -1, floor(here), "%s: %s has no place in the house", file, here)
		assert.Less(t, floor(there), floor(here), "%s: %s must not import %s", file, here, there)
	}
}

func TestRoom(t *testing.T) {
	for path, want := range map[string]string{
		"linemap/internal/route/audit": "route",
		"linemap/internal/unit":        "unit",
		"linemap/cmd/linemap":          "cmd",
		"linemap/assets":               "assets",
		"fmt":                          "",
		"golang.org/x/text/language":   "",
	} {
		assert.Equal(t, want, room(path), path)
	}
}
