package desk

import (
	"path/filepath"
	"strings"

	"linemap/internal/site"
	"linemap/internal/unit"
)

// Path is the file that the site is kept in, "" where it was never saved.
func (d *Desk) Path() string { return d.path }

// Changed reports whether the site differs from its file.
func (d *Desk) Changed() bool { return d.history.Changed() }

// Name is what the site is called: by its file, else by its title.
func (d *Desk) Name() string {
	if d.path != "" {
		return strings.TrimSuffix(filepath.Base(d.path), site.Extension)
	}
	if t := d.Site().Job.Title; t != "" {
		return t
	}
	return "New site"
}

// New lays an empty site on the desk.
func (d *Desk) New(units unit.System) error {
	s, err := site.New(units)
	if err != nil {
		return err
	}
	d.put(s, "")
	return nil
}

// Open lays the site in a file on the desk. Where it cannot be read, the desk
// stays as it is.
func (d *Desk) Open(path string) error {
	s, err := site.Open(path)
	if err != nil {
		return err
	}
	d.put(s, path)
	return nil
}

// OpenDemo lays a demo site on the desk, as one that was never saved.
func (d *Desk) OpenDemo(name string) error {
	s, err := site.Demo(name)
	if err != nil {
		return err
	}
	d.put(s, "")
	return nil
}

// Save writes the site to its file.
func (d *Desk) Save() error { return d.SaveAs(d.path) }

// SaveAs writes the site to a file, which is its file from then on.
func (d *Desk) SaveAs(path string) error {
	if filepath.Ext(path) == "" {
		path += site.Extension
	}
	if err := site.Save(path, d.Site()); err != nil {
		return err
	}
	d.path = path
	d.history.Saved()
	d.tell(File)
	return nil
}
