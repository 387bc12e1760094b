package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
)

var update = flag.Bool("update", false, "write the golden files and the README's output anew")

// demo is a demo site, which tests use as an ordinary one.
func demo(name string) string { return filepath.Join("..", "..", "assets", "demo", name+".linemap") }

// call runs the program with args.
func call(ctx context.Context, args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(ctx, args, &out, &err)
	return code, out.String(), err.String()
}

func TestExitCodes(t *testing.T) {
	t.Setenv("DISPLAY", "")
	t.Setenv("WAYLAND_DISPLAY", "")
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	notJSON := write("not-json.linemap", "this is no site")
	notSite := write("not-site.linemap", `{"linemap": 1}`)
	newer := write("newer.linemap", `{"linemap": 99}`)
	file := write("file", "in the way")
	good := demo("restaurant")
	cases := []struct {
		name string
		args []string
		code int
		says string // part of stderr, all of it empty where this is
	}{
		{"no screen for the window", nil, exitNoWindow, "no screen"},
		{"no screen for the window on a site", []string{good}, exitNoWindow, "no screen"},
		{"help", []string{"help"}, exitOK, ""},
		{"help as a flag", []string{"--help"}, exitOK, ""},
		{"help of a command", []string{"help", "plan"}, exitOK, ""},
		{"help of a command as a flag", []string{"plan", "-h"}, exitOK, ""},
		{"help of no command", []string{"help", "dance"}, exitUsage, `no command "dance"`},
		{"version", []string{"version"}, exitOK, ""},
		{"version as a flag", []string{"--version"}, exitOK, ""},
		{"version with arguments", []string{"version", "2"}, exitUsage, "takes no arguments"},
		{"unknown command", []string{"dance"}, exitUsage, `no command "dance"`},
		{"unknown flag", []string{"plan", good, "--fast"}, exitUsage, "-fast"},
		{"unknown flag of check", []string{"check", "--out", dir, good}, exitUsage, "-out"},
		{"no site", []string{"plan", "--out", dir}, exitUsage, "name the site file"},
		{"no site to check", []string{"check"}, exitUsage, "name the site file"},
		{"two sites", []string{"plan", good, good, "--out", dir}, exitUsage, "one site file at a time, not 2"},
		{"no folder", []string{"plan", good}, exitUsage, "--out DIR"},
		{"folder flag without its value", []string{"plan", good, "--out"}, exitUsage, "-out"},
		{"paper of no such size", []string{"plan", good, "--out", dir, "--paper", "a3"}, exitUsage, "choose letter or a4"},
		{"units of no such system", []string{"plan", good, "--out", dir, "--units", "feet"}, exitUsage, "choose us or metric"},
		{"no such file", []string{"plan", filepath.Join(dir, "none.linemap"), "--out", dir}, exitUnreadable, "none.linemap"},
		{"no such file to check", []string{"check", filepath.Join(dir, "none.linemap")}, exitUnreadable, "none.linemap"},
		{"a folder is no site", []string{"check", dir}, exitUnreadable, dir},
		{"no JSON", []string{"plan", notJSON, "--out", dir}, exitUnreadable, notJSON},
		{"broken: no site document", []string{"check", notSite}, exitUnreadable, notSite},
		{"broken: of a later version", []string{"check", newer}, exitUnreadable, "99"},
		{"a file where the folder should be", []string{"plan", good, "--out", file}, exitUnwritable, file},
		{"no site to export", []string{"export", "--out", dir}, exitUsage, "name the site file"},
		{"no folder to export to", []string{"export", good}, exitUsage, "--out DIR"},
		{"paper of no such name", []string{"export", good, "--out", dir, "--only", "sheet,poster"}, exitUsage, `no paper "poster"`},
		{"no paper named", []string{"export", good, "--out", dir, "--only", ","}, exitUsage, "name a paper"},
		{"export on paper of no such size", []string{"export", good, "--out", dir, "--paper", "a3"}, exitUsage, "choose letter or a4"},
		{"no such file to export", []string{"export", filepath.Join(dir, "none.linemap"), "--out", dir}, exitUnreadable, "none.linemap"},
		{"a paper that the site cannot give", []string{"export", good, "--out", dir, "--only", "map,geojson"}, exitUnwritable, "geojson: the site does not say where on Earth it lies"},
		{"a file where the folder of an export should be", []string{"export", good, "--only", "csv", "--out", file}, exitUnwritable, file},
		{"a flag-like site after the end of flags", []string{"check", "--", "--out"}, exitUnreadable, "--out"},
		{"a demo has no errors", []string{"check", good}, exitOK, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			code, out, err := call(t.Context(), c.args...)
			assert.Equal(t, c.code, code, "stdout %q, stderr %q", out, err)
			if c.says == "" {
				assert.Empty(t, err)
				assert.NotEmpty(t, out)
				return
			}
			assert.Equal(t, strings.HasPrefix(c.name, "broken: "), out != "", "stdout %q", out)
			assert.Contains(t, err, c.says)
			assert.True(t, strings.HasPrefix(err, "linemap: "), "stderr %q", err)
			assert.Equal(t, 1, strings.Count(err, "\n"), "stderr %q is not one line", err)
		})
	}
}

func TestWindowIsOpenedOn(t *testing.T) {
	was := window
	t.Cleanup(func() { window = was })
	dir := t.TempDir()
	odd := filepath.Join(dir, "site.json")
	require.NoError(t, os.WriteFile(odd, []byte("{}"), 0o600))
	for _, c := range []struct {
		args []string
		want string
	}{
		{nil, ""},
		{[]string{demo("flats")}, demo("flats")},
		{[]string{"not-there.linemap"}, "not-there.linemap"}, // the window says so
		{[]string{odd}, odd},
		{[]string{"plan"}, "no window"},
		{[]string{dir}, "no window"},
		{[]string{demo("flats"), demo("flats")}, "no window"},
		{[]string{"--help"}, "no window"},
	} {
		got := "no window"
		window = func(path string) (int, error) {
			got = path
			return exitOK, nil
		}
		call(t.Context(), c.args...)
		assert.Equal(t, c.want, got, c.args)
	}
}

func TestCheckListsWhatIsBroken(t *testing.T) {
	var twenty strings.Builder
	for range site.MaxProblems + 2 {
		twenty.WriteString(`{"x": "west", "y": 0},`)
	}
	path := filepath.Join(t.TempDir(), "broken"+site.Extension)
	require.NoError(t, os.WriteFile(path, []byte(`{"linemap": 1, "lays": [{"spot": "a", "via": [`+strings.TrimSuffix(twenty.String(), ",")+`]}]}`), 0o600))
	_, stdout, stderr := call(t.Context(), "check", path)
	lines := strings.Split(strings.TrimSpace(stdout), "\n")
	assert.Len(t, lines, site.MaxProblems+1)
	for _, line := range lines[:site.MaxProblems] {
		assert.True(t, strings.HasPrefix(line, "error: "), line)
	}
	assert.Regexp(t, `^and \d+ more$`, lines[site.MaxProblems])
	assert.Equal(t, 1, strings.Count(stderr, "\n"))
}

func TestHelp(t *testing.T) {
	for _, args := range [][]string{{"help"}, {"help", "plan"}, {"help", "export"}, {"help", "advise"}, {"help", "results"}, {"help", "check"}, {"help", "version"}} {
		name := strings.Join(args, "-") + ".golden"
		t.Run(name, func(t *testing.T) {
			_, out, _ := call(t.Context(), args...)
			golden(t, name, out)
			for line := range strings.Lines(out) {
				assert.LessOrEqual(t, len(strings.TrimRight(line, "\n")), 100, line)
			}
		})
	}
}

// golden compares got with a file of testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o600))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

func TestOutputThatCannotBeWritten(t *testing.T) {
	for _, args := range [][]string{{"help"}, {"version"}, {"check", demo("restaurant")}, {"plan", "--json", demo("restaurant")}, {"export", demo("restaurant"), "--only", "csv", "--out", t.TempDir()}} {
		var stderr bytes.Buffer
		code := run(t.Context(), args, fullDisk{}, &stderr)
		assert.Equal(t, exitUnwritable, code, args)
		assert.Contains(t, stderr.String(), "disk full")
	}
}

// fullDisk takes no byte.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestFaultIsOneLine(t *testing.T) {
	var stderr bytes.Buffer
	code := report(&stderr, func() (int, error) { panic("first\nsecond") })
	assert.Equal(t, exitFault, code)
	assert.Equal(t, 1, strings.Count(stderr.String(), "\n"), stderr.String())
	assert.Contains(t, stderr.String(), "first; second (run_test.go:")
}

func TestErrorsAreFoldedIntoOneLine(t *testing.T) {
	var stderr bytes.Buffer
	code := report(&stderr, func() (int, error) {
		return exitNoPlan, errors.Join(errors.New("one"), errors.New("two"))
	})
	assert.Equal(t, exitNoPlan, code)
	assert.Equal(t, "linemap: one; two\n", stderr.String())
}
