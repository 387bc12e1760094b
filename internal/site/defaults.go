package site

import (
	"fmt"
	"io/fs"
	"path"
	"strings"

	"linemap/assets"
	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// DefaultRigs lists the names of the rigs that travel inside the program, in
// order.
func DefaultRigs() ([]string, error) { return inside("rigs", ".json") }

// DefaultRig returns a rig that travels inside the program.
func DefaultRig(name string) (*rig.Rig, error) {
	data, err := assets.FS.ReadFile(path.Join("rigs", name+".json"))
	if err != nil {
		return nil, fmt.Errorf("default rig %q: %w", name, err)
	}
	root, err := siteSchema()
	if err != nil {
		return nil, err
	}
	r := new(rig.Rig)
	if _, err := decode(data, root.Members["rig"], r); err != nil {
		return nil, fmt.Errorf("default rig %q: %w", name, err)
	}
	return r, nil
}

// OwnRigs returns all rigs that travel inside the program.
func OwnRigs() ([]rig.Rig, error) {
	names, err := DefaultRigs()
	if err != nil {
		return nil, err
	}
	var rigs []rig.Rig
	for _, name := range names {
		r, err := DefaultRig(name)
		if err != nil {
			return nil, err
		}
		rigs = append(rigs, *r)
	}
	return rigs, nil
}

// Demos lists the names of the demo sites that travel inside the program, in
// order.
func Demos() ([]string, error) { return inside("demo", Extension) }

// Demo returns a demo site that travels inside the program.
func Demo(name string) (*Site, error) {
	data, err := assets.FS.ReadFile(path.Join("demo", name+Extension))
	if err != nil {
		return nil, fmt.Errorf("demo site %q: %w", name, err)
	}
	s, err := Decode(data)
	if err != nil {
		return nil, fmt.Errorf("demo site %q: %w", name, err)
	}
	return s, nil
}

// inside lists the files of a folder of the program that end in an extension,
// without it.
func inside(folder, extension string) ([]string, error) {
	files, err := fs.ReadDir(assets.FS, folder)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, f := range files {
		if name, ok := strings.CutSuffix(f.Name(), extension); ok {
			names = append(names, name)
		}
	}
	return names, nil
}

// New returns an empty document with the default rig of the system of units
// and the paper that goes with it.
func New(units unit.System) (*Site, error) {
	r, err := DefaultRig(string(units))
	if err != nil {
		return nil, err
	}
	s := &Site{
		Version: Version,
		Units:   units,
		Paper:   Letter,
		Code:    "ipc",
		Network: network.Network{Nodes: []network.Node{}, Pipes: []network.Pipe{}},
		Spots:   []Spot{},
		Rig:     *r,
	}
	if units == unit.Metric {
		s.Paper = A4
	}
	return s, nil
}
