package form

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"github.com/google/renameio/v2/maybe"

	"linemap/internal/rig"
	"linemap/internal/site"
)

// Library is the user's rigs: files of one rig each in a folder, beside those
// that come with the program.
type Library struct {
	// Folder holds the user's own; it is made when the first is saved.
	Folder string
}

// LibraryRig is a rig of the library.
type LibraryRig struct {
	Name string
	// File is the file of a rig of the user's own, "" for one that comes with
	// the program.
	File string
	// Rig is the rig, nil where its file cannot be read, which Err says.
	Rig *rig.Rig
	Err error
}

// mostRigs is how many files of a folder are looked at.
const mostRigs = 1000

// List lists the rigs: those that come with the program, then the user's own by
// name. A file that is no rig is listed with what is wrong with it.
func (l Library) List() ([]LibraryRig, error) {
	names, err := site.DefaultRigs()
	if err != nil {
		return nil, err
	}
	var all []LibraryRig
	for _, name := range names {
		r, err := site.DefaultRig(name)
		if err != nil {
			return nil, err
		}
		all = append(all, LibraryRig{Name: r.Name, Rig: r})
	}
	files, err := os.ReadDir(l.Folder)
	if errors.Is(err, fs.ErrNotExist) {
		return all, nil
	}
	if err != nil {
		return all, fmt.Errorf("the rig library cannot be read: %w", err)
	}
	own := []LibraryRig{}
	for _, f := range files {
		if len(own) == mostRigs {
			break
		}
		if name, is := strings.CutSuffix(f.Name(), site.RigExtension); is {
			own = append(own, readRig(filepath.Join(l.Folder, f.Name()), name))
		}
	}
	slices.SortStableFunc(own, func(a, b LibraryRig) int {
		return cmp.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name))
	})
	return append(all, own...), nil
}

// Save keeps a copy of a rig under a name. It takes the place of the user's rig
// of that name.
func (l Library) Save(name string, r rig.Rig) error {
	name = strings.TrimSpace(name)
	if name == "" {
		return errors.New("a rig in the library needs a name")
	}
	r = r.Clone()
	r.Name = name
	data, err := site.EncodeRig(&r)
	if err != nil {
		return err
	}
	all, err := l.List()
	if err != nil {
		return err
	}
	taken := map[string]bool{}
	file := ""
	for _, o := range all {
		if o.File == "" {
			continue
		}
		taken[strings.ToLower(filepath.Base(o.File))] = true
		if o.Rig != nil && o.Name == name {
			file = o.File
		}
	}
	if file == "" {
		file = filepath.Join(l.Folder, freeName(name, taken))
	}
	if err := os.MkdirAll(l.Folder, 0o755); err != nil {
		return fmt.Errorf("the rig library cannot be made: %w", err)
	}
	return maybe.WriteFile(file, data, 0o644)
}

// Import reads a rig from a file anywhere and keeps it under its own name, or
// under that and a number where the library has one of that name.
func (l Library) Import(path string) (string, error) {
	got := readRig(path, strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)))
	if got.Err != nil {
		return "", got.Err
	}
	all, err := l.List()
	if err != nil {
		return "", err
	}
	name := got.Name
	for n := 2; slices.ContainsFunc(all, func(o LibraryRig) bool { return o.Name == name }); n++ {
		name = fmt.Sprintf("%s (%d)", got.Name, n)
	}
	return name, l.Save(name, *got.Rig)
}

// Export writes a rig to a file.
func (l Library) Export(path string, r rig.Rig) error {
	data, err := site.EncodeRig(&r)
	if err != nil {
		return err
	}
	return maybe.WriteFile(path, data, 0o644)
}

// Delete takes a rig of the user's own out of the library.
func (l Library) Delete(r LibraryRig) error {
	if r.File == "" {
		return fmt.Errorf("%s comes with the program and stays", r.Name)
	}
	return os.Remove(r.File)
}

// readRig reads the rig in a file; name stands for it where it has none.
func readRig(path, name string) LibraryRig {
	out := LibraryRig{Name: name, File: path}
	data, err := readFile(path)
	if err == nil {
		out.Rig, err = site.DecodeRig(data)
	}
	if err != nil {
		out.Err = fmt.Errorf("%s: %w", filepath.Base(path), err)
		return out
	}
	if out.Rig.Name != "" {
		out.Name = out.Rig.Name
	}
	return out
}

// readFile reads a file that is not too large for a rig.
func readFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("found no ordinary file, must be one")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close() // it was only read
	return io.ReadAll(io.LimitReader(f, site.MaxRigBytes+1))
}

// freeName is a file name made of a rig's, that is not taken.
func freeName(name string, taken map[string]bool) string {
	stem := strings.Trim(strings.Map(func(r rune) rune {
		if r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
			return unicode.ToLower(r)
		}
		return '-'
	}, name), "-")
	for strings.Contains(stem, "--") {
		stem = strings.ReplaceAll(stem, "--", "-")
	}
	const long = 60
	if stem = strings.Trim(stem[:min(long, len(stem))], "-"); stem == "" {
		stem = "rig"
	}
	file := stem + site.RigExtension
	for n := 2; taken[file]; n++ {
		file = fmt.Sprintf("%s-%d%s", stem, n, site.RigExtension)
	}
	return file
}
