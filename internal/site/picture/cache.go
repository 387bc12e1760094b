package picture

import (
	"cmp"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"linemap/internal/site"
)

// Cache keeps decoded pictures by what is in them, those that were asked for
// last. The zero value is ready, and safe for use from any goroutine. One
// picture is decoded at a time, for a large one takes hundreds of megabytes
// meanwhile.
type Cache struct {
	mu       sync.Mutex
	known    map[source]sum
	pictures map[sum]*entry
	clock    int
	decoding sync.Mutex
	most     int // bytes of decoded pictures that are kept, 0 for mostKept
}

// What is kept at most: bytes of decoded pictures, and how many pictures.
const (
	mostKept     = 256 << 20
	mostPictures = 256
)

type sum [sha256.Size]byte

// source tells where the bytes of a picture are without looking at them: those
// in a document are never changed in place, those of a file not without its
// time.
type source struct {
	data *byte
	size int64
	file string
	time time.Time
}

type entry struct {
	decode sync.Once
	data   []byte // until it is decoded
	shown  *Shown
	err    error
	bytes  int // 0 until it is decoded
	used   int
	from   []source
}

// mostSources is how many sources of one picture are known at most: each keeps
// the bytes in a document from being forgotten.
const mostSources = 4

// Load returns the picture of an underlay as it is painted. A file is looked
// for from the folder of the document, and never outside it.
func (c *Cache) Load(u *site.Underlay, folder string) (*Shown, error) {
	from, err := sourceOf(u, folder)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name(u), err)
	}
	e := c.find(from)
	if e == nil {
		data := u.Data
		if len(data) == 0 {
			if data, err = readIn(folder, u.File); err != nil {
				return nil, fmt.Errorf("%s: %w", name(u), err)
			}
		}
		e = c.add(from, data)
	}
	e.decode.Do(func() {
		c.decoding.Lock()
		defer c.decoding.Unlock()
		e.shown, e.err = show(e.data)
		e.data = nil
		c.keep(e)
	})
	if e.err != nil {
		return nil, fmt.Errorf("%s: %w", name(u), e.err)
	}
	return e.shown, nil
}

// name is what an underlay is called in a message.
func name(u *site.Underlay) string {
	switch {
	case u.File != "":
		return "picture " + u.File
	case u.Label != "":
		return "picture " + u.Label
	}
	return "picture " + string(u.ID)
}

func sourceOf(u *site.Underlay, folder string) (source, error) {
	if len(u.Data) > 0 {
		return source{data: &u.Data[0], size: int64(len(u.Data))}, nil
	}
	if !nameable(u.File) {
		return source{}, errors.New("not a path inside the folder of the site file")
	}
	path := filepath.Join(folder, filepath.FromSlash(u.File))
	info, err := os.Stat(path)
	if err != nil {
		return source{}, reason(err)
	}
	return source{file: path, size: info.Size(), time: info.ModTime()}, nil
}

// find returns the picture of a source that is known.
func (c *Cache) find(from source) *entry {
	c.mu.Lock()
	defer c.mu.Unlock()
	of, ok := c.known[from]
	if !ok {
		return nil
	}
	return c.use(c.pictures[of])
}

// add makes a source known and returns its picture, which may be there from
// another source.
func (c *Cache) add(from source, data []byte) *entry {
	of := sha256.Sum256(data)
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.known == nil {
		c.known, c.pictures = map[source]sum{}, map[sum]*entry{}
	}
	e := c.pictures[of]
	if e == nil {
		e = &entry{data: data}
		c.pictures[of] = e
	}
	if _, again := c.known[from]; !again {
		c.known[from] = of
		e.from = append(e.from, from)
	}
	if len(e.from) > mostSources {
		delete(c.known, e.from[0])
		e.from = slices.Delete(e.from, 0, 1)
	}
	return c.use(e)
}

func (c *Cache) use(e *entry) *entry {
	c.clock++
	e.used = c.clock
	return e
}

// keep notes how large a picture is and drops those that were not asked for
// longest where all take too much.
func (c *Cache) keep(e *entry) {
	c.mu.Lock()
	defer c.mu.Unlock()
	e.bytes = 1
	if e.shown != nil {
		e.bytes = len(e.shown.Image.Pix)
	}
	most := cmp.Or(c.most, mostKept)
	total := 0
	for _, other := range c.pictures {
		total += other.bytes
	}
	for total > most || len(c.pictures) > mostPictures {
		var oldest sum
		found := false
		for of, other := range c.pictures {
			if other != e && other.bytes > 0 && (!found || other.used < c.pictures[oldest].used) {
				oldest, found = of, true
			}
		}
		if !found {
			return
		}
		total -= c.pictures[oldest].bytes
		for _, from := range c.pictures[oldest].from {
			delete(c.known, from)
		}
		delete(c.pictures, oldest)
	}
}
