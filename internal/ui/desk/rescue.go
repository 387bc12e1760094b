package desk

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"github.com/gofrs/flock"
	"github.com/google/renameio/v2/maybe"

	"linemap/internal/site"
)

// Rescue keeps a copy of the site on the disk while it differs from its file,
// so that a crash costs seconds of work.
//
// Each program that runs keeps its copy under a name of its own, which it holds
// locked: the system lets go of the lock however the program ends, so a copy
// that nobody holds is one that a crash left behind.
type Rescue struct {
	desk *Desk
	dir  string
	stem string
	lock *flock.Flock
	tell func(error)

	pending *time.Timer

	// A copy in the making is not kept where it was dropped meanwhile.
	writing sync.Mutex
	dropped int
}

// rest is how long the sketch rests before a copy is written.
const rest = 1500 * time.Millisecond

// about is what is kept beside a copy.
type about struct {
	Of    string    `json:"of"` // the file of the site, "" for none
	Title string    `json:"title"`
	When  time.Time `json:"when"`
}

// Endings of the files of one copy.
const (
	aboutExt = ".about.json"
	lockExt  = ".lock"
)

// NewRescue keeps copies of a desk's site in a folder, which is made where it is
// missing. Tell hears of a copy that could not be written, once.
func NewRescue(dir string, d *Desk, tell func(error)) (*Rescue, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("no copies can be kept against a crash: %w", err)
	}
	r := &Rescue{desk: d, dir: dir, stem: fmt.Sprintf("%s-%d", time.Now().UTC().Format("20060102T150405.000"), os.Getpid()), tell: tell}
	r.lock = flock.New(filepath.Join(dir, r.stem+lockExt))
	if ok, err := r.lock.TryLock(); err != nil || !ok {
		return nil, fmt.Errorf("no copies can be kept against a crash: %s cannot be locked: %w", r.lock.Path(), errors.Join(err))
	}
	d.Watch(func(c Change) {
		if c&(Document|File) != 0 {
			r.changed()
		}
	})
	return r, nil
}

// changed writes a copy soon, or drops the one there is where the site is as in
// its file.
func (r *Rescue) changed() {
	if r.pending != nil {
		r.pending.Stop()
		r.pending = nil
	}
	if !r.desk.Changed() {
		r.drop()
		return
	}
	r.pending = time.AfterFunc(rest, func() { r.desk.post(r.write) })
}

// write writes a copy in the background.
func (r *Rescue) write() {
	if !r.desk.Changed() {
		return
	}
	s, a, dropped := r.desk.Snapshot(), r.about(), r.dropped
	go func() {
		r.writing.Lock()
		defer r.writing.Unlock()
		if r.dropped != dropped {
			return
		}
		if err := r.put(s, a); err != nil {
			r.desk.post(func() {
				if r.tell != nil {
					r.tell(err)
					r.tell = nil
				}
			})
		}
	}()
}

// Now writes a copy at once, for when the program is about to end badly.
func (r *Rescue) Now() error {
	return r.put(r.desk.Site(), r.about())
}

func (r *Rescue) about() about {
	return about{Of: r.desk.Path(), Title: r.desk.Name(), When: time.Now()}
}

func (r *Rescue) put(s *site.Site, a about) error {
	data, err := site.Encode(s)
	if err != nil {
		return fmt.Errorf("no copy could be kept against a crash: %w", err)
	}
	words, err := json.Marshal(a)
	if err != nil {
		return fmt.Errorf("no copy could be kept against a crash: %w", err)
	}
	path := filepath.Join(r.dir, r.stem)
	if err := maybe.WriteFile(path+aboutExt, words, 0o600); err != nil {
		return fmt.Errorf("no copy could be kept against a crash: %w", err)
	}
	if err := maybe.WriteFile(path+site.Extension, data, 0o600); err != nil {
		return fmt.Errorf("no copy could be kept against a crash: %w", err)
	}
	return nil
}

// drop removes the copy.
func (r *Rescue) drop() {
	r.writing.Lock()
	defer r.writing.Unlock()
	r.dropped++
	Copy{path: filepath.Join(r.dir, r.stem)}.Drop()
}

// Close removes the copy and lets go of its name: the site was saved, or given
// up on purpose.
func (r *Rescue) Close() {
	if r.pending != nil {
		r.pending.Stop()
	}
	r.drop()
	_ = r.lock.Unlock()
	_ = os.Remove(r.lock.Path())
}

// Copy is a copy that a crash left behind.
type Copy struct {
	// Of is the file of the site, "" for one that was never saved; Title is
	// what it was called, When the time of the copy.
	Of    string
	Title string
	When  time.Time
	path  string // without its endings
}

// Left lists the copies in a folder that no running program holds, the newest
// first. What cannot be read is left alone.
func Left(dir string) []Copy {
	files, err := filepath.Glob(filepath.Join(dir, "*"+site.Extension))
	if err != nil {
		return nil
	}
	var all []Copy
	for i := len(files) - 1; i >= 0; i-- { // names begin with the time
		path := strings.TrimSuffix(files[i], site.Extension)
		lock := flock.New(path + lockExt)
		if free, err := lock.TryLock(); err != nil || !free {
			continue
		}
		_ = lock.Unlock()
		c := Copy{Title: "a site", path: path}
		var a about
		if words, err := os.ReadFile(path + aboutExt); err == nil && json.Unmarshal(words, &a) == nil {
			c.Of, c.Title, c.When = a.Of, a.Title, a.When
		}
		all = append(all, c)
	}
	return all
}

// Drop removes the copy.
func (c Copy) Drop() {
	for _, ext := range []string{site.Extension, aboutExt, lockExt} {
		if ext == lockExt && held(c.path) {
			continue
		}
		_ = os.Remove(c.path + ext)
	}
}

// held reports whether a running program holds a copy's name.
func held(path string) bool {
	lock := flock.New(path + lockExt)
	free, err := lock.TryLock()
	if err != nil || !free {
		return true
	}
	_ = lock.Unlock()
	return false
}

// Recover lays a copy on the desk: the site as it was, to be saved to its file.
func (d *Desk) Recover(c Copy) error {
	s, err := site.Open(c.path + site.Extension)
	if err != nil {
		return err
	}
	d.put(s, c.Of)
	d.history.Unsaved()
	d.tell(File)
	return nil
}
