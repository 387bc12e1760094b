package site

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"github.com/google/renameio/v2/maybe"
)

// Save writes a document to a file, all of it or nothing: it is written beside
// the file, flushed to the disk and put in the file's place, so that a crash
// leaves the old document or the new one. A file that is there keeps its
// permissions; a link keeps pointing to it. On Windows the system offers no
// such replacement and the file is written in place.
//
// A document that [Open] would refuse is not saved; the error holds the
// [*LoadError].
func Save(path string, s *Site) error {
	data, err := Encode(s)
	if err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	if _, err := Decode(data); err != nil {
		return fmt.Errorf("save %s: it could not be opened again: %w", path, err)
	}
	target, err := filepath.EvalSymlinks(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		target = path
	case err != nil:
		return fmt.Errorf("save %s: %w", path, err)
	}
	const ownerWrites = 0o644 // less what the umask takes
	if err := maybe.WriteFile(target, data, ownerWrites); err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	return nil
}
