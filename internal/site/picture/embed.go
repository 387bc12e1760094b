package picture

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"linemap/internal/site"
)

// MaxEmbedded is the size up to which the bytes of a picture are kept in the
// document, in bytes.
const MaxEmbedded = 20 << 20

// Embed returns an underlay that carries the bytes of the picture. What is too
// large for that is kept beside the document.
func (p *Picture) Embed() (site.Underlay, error) {
	if len(p.Data) > MaxEmbedded {
		return site.Underlay{}, fmt.Errorf("%s: the picture has %.1f MB, at most %d MB go into a site file; keep it beside the file",
			p.Name, float64(len(p.Data))/(1<<20), MaxEmbedded>>20)
	}
	return site.Underlay{Label: p.Name, Data: p.Data}, nil
}

// Beside returns an underlay that names a file in the folder of the document,
// or in a folder of that. A picture from elsewhere is first copied there; no
// file that is there is changed.
func (p *Picture) Beside(document string) (site.Underlay, error) {
	u := site.Underlay{Label: p.Name}
	if document == "" {
		return u, errors.New("the site has no file yet that a picture could lie beside: save the site first")
	}
	dir, err := filepath.Abs(filepath.Dir(document))
	if err != nil {
		return u, err
	}
	if u.File = p.inside(dir); u.File != "" {
		return u, nil
	}
	u.File, err = p.copyTo(dir)
	if err != nil {
		return u, fmt.Errorf("%s: it cannot be copied beside the site file: %w", p.Name, err)
	}
	return u, nil
}

// inside returns the path of the picture from a folder, "" where it is not in
// it or a document cannot name it.
func (p *Picture) inside(dir string) string {
	if p.Path == "" {
		return ""
	}
	path, err := filepath.Abs(p.Path)
	if err != nil {
		return ""
	}
	rel, err := filepath.Rel(dir, path)
	if err != nil || !filepath.IsLocal(rel) {
		return ""
	}
	rel = filepath.ToSlash(rel)
	if !nameable(rel) || !p.same(dir, rel) {
		return ""
	}
	return rel
}

// nameable reports whether a document can name a picture so.
func nameable(rel string) bool { return site.Check(site.Underlay{ID: "u", Scale: 1, File: rel}) == nil }

// same reports whether a file in a folder holds the picture.
func (p *Picture) same(dir, rel string) bool {
	data, err := readIn(dir, rel)
	return err == nil && bytes.Equal(data, p.Data)
}

// copyTo writes the picture to a file of a folder under a name that is free, and
// returns the name. Where a file holds the picture already, it is that.
func (p *Picture) copyTo(dir string) (string, error) {
	const tries = 1000
	for i := range tries {
		name := p.fileName(i)
		f, err := os.OpenFile(filepath.Join(dir, name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		switch {
		case errors.Is(err, fs.ErrExist):
			if p.same(dir, name) {
				return name, nil
			}
			continue
		case err != nil:
			return "", reason(err)
		}
		_, err = f.Write(p.Data)
		if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
			return "", errors.Join(err, os.Remove(f.Name()))
		}
		return name, nil
	}
	return "", fmt.Errorf("%d files of such a name are there already", tries)
}

// fileName is the i-th name that is tried for the picture's file.
func (p *Picture) fileName(i int) string {
	ext := ".png"
	if !bytes.HasPrefix(p.Data, []byte("\x89PNG")) {
		ext = ".jpg"
	}
	stem := p.Name
	for _, known := range []string{".png", ".jpg", ".jpeg"} {
		if len(stem) > len(known) && strings.EqualFold(stem[len(stem)-len(known):], known) {
			stem = stem[:len(stem)-len(known)]
		}
	}
	stem = strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' || r == '_' || r == ' ' {
			return r
		}
		return '-'
	}, strings.ReplaceAll(stem, ", ", " "))
	const long = 60
	if runes := []rune(stem); len(runes) > long {
		stem = string(runes[:long])
	}
	if stem = strings.TrimSpace(stem); stem == "" {
		stem = "plan"
	}
	if i > 0 {
		stem += fmt.Sprint(" ", i+1)
	}
	return stem + ext
}

// readIn reads a picture in a folder or below; no link leads out of it.
func readIn(dir, rel string) ([]byte, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, reason(err)
	}
	defer root.Close() // it was only read
	f, err := root.Open(filepath.FromSlash(rel))
	if err != nil {
		return nil, reason(err)
	}
	defer f.Close() // it was only read
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
		return nil, errors.New("not a file that a picture could be in")
	}
	return readAll(f)
}
