package sketch

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"linemap/internal/network"
	"linemap/internal/unit"
)

// kinds gives what the leading letters of a name stand for.
var kinds = map[string]network.Node{
	"OUT": {Kind: network.KindOutlet},
	"F":   {Kind: network.KindFixture},
	"CAP": {Kind: network.KindCap},
	"B":   {Kind: network.KindBend},
	"R":   {Kind: network.KindReducer},
	"TR":  {Kind: network.KindTrap},
	"BV":  {Kind: network.KindBackwater},
	"W":   {Kind: network.KindJunction, Junction: &network.Junction{Kind: network.Wye}},
	"T":   {Kind: network.KindJunction, Junction: &network.Junction{Kind: network.SanitaryTee}},
	"C":   {Kind: network.KindJunction, Junction: &network.Junction{Kind: network.Combination}},
	"DW":  {Kind: network.KindJunction, Junction: &network.Junction{Kind: network.DoubleWye}},
	"X":   {Kind: network.KindJunction, Junction: &network.Junction{Kind: network.Cross}},
	"CO":  {Kind: network.KindAccess, Access: &network.Access{Kind: network.TwoWayCleanout}},
	"MH":  {Kind: network.KindAccess, Access: &network.Access{Kind: network.Manhole}},
	"CB":  {Kind: network.KindAccess, Access: &network.Access{Kind: network.CatchBasin}},
	"VT":  {Kind: network.KindAccess, Access: &network.Access{Kind: network.RoofVent}},
	"PF":  {Kind: network.KindAccess, Access: &network.Access{Kind: network.PulledFixture}},
}

// newNode makes a node of the kind that its name stands for.
func newNode(name string) (network.Node, error) {
	letters := strings.TrimRight(name, "0123456789_.abcdefghijklmnopqrstuvwxyz")
	node, ok := kinds[letters]
	if !ok {
		return node, fmt.Errorf("node %s: no kind is called %q", name, letters)
	}
	node.ID = network.NodeID(name)
	if node.Junction != nil {
		node.Junction = &network.Junction{Kind: node.Junction.Kind}
	}
	if node.Access != nil {
		node.Access = &network.Access{Kind: node.Access.Kind, Size: 4}
	}
	return node, nil
}

// accessWords are the words that only an access knows.
var accessWords = map[string]func(a *network.Access, value string) error{
	"up": func(a *network.Access, _ string) error {
		a.Kind, a.Facing = network.OneWayCleanout, network.FacesUpstream
		return nil
	},
	"down": func(a *network.Access, _ string) error {
		a.Kind, a.Facing = network.OneWayCleanout, network.FacesDownstream
		return nil
	},
	"indoor": func(a *network.Access, _ string) error { a.Indoor = true; return nil },
	"buried": func(a *network.Access, _ string) error { a.OutOfService = true; return nil },
	"room":   func(a *network.Access, v string) error { a.Room = v; return nil },
	"size":   func(a *network.Access, v string) (err error) { a.Size, err = size(v); return err },
	"riser":  func(a *network.Access, v string) (err error) { a.Riser, err = length(v); return err },
	"entry":  func(a *network.Access, v string) (err error) { a.Entry, err = angle(v); return err },
	"minutes": func(a *network.Access, v string) (err error) {
		a.OpenMinutes, err = number(v)
		return err
	},
}

// nodeWord applies one word to node i.
func (p *parser) nodeWord(i int, word string) (err error) {
	node := &p.net.Nodes[i]
	key, value, _ := strings.Cut(word, "=")
	if set, ok := accessWords[key]; ok {
		if node.Access == nil {
			return fmt.Errorf("%q is for an access only", key)
		}
		return set(node.Access, value)
	}
	switch key {
	case "through":
		node.LetsThrough = true
	case "left", "right":
		p.pens[i].right = key == "right"
	case "turn":
		node.Turn, err = angle(value)
	case "label":
		node.Label = value
	case "level":
		node.Level = value
	case "invert":
		var l unit.Length
		l, err = length(value)
		node.Invert = &l
	case "at":
		x, y, ok := strings.Cut(value, ",")
		if !ok {
			return fmt.Errorf("at=%s: give east,north", value)
		}
		if node.At.X, err = length(x); err != nil {
			return err
		}
		node.At.Y, err = length(y)
		p.pens[i].placed = true
	default:
		return fmt.Errorf("unknown word %q", word)
	}
	return err
}

// pipeWords are the plain words of a pipe.
var pipeWords = map[string]func(*network.Pipe){
	"pvc":      func(p *network.Pipe) { p.Material = network.PVC40 },
	"abs":      func(p *network.Pipe) { p.Material = network.ABS40 },
	"iron":     func(p *network.Pipe) { p.Material = network.CastIron },
	"clay":     func(p *network.Pipe) { p.Material = network.Clay },
	"concrete": func(p *network.Pipe) { p.Material = network.Concrete },
	"clean":    func(p *network.Pipe) { p.Deposit = network.NoDeposit },
	"grease":   func(p *network.Pipe) { p.Deposit = network.Grease },
	"sediment": func(p *network.Pipe) { p.Deposit = network.Sediment },
	"scale":    func(p *network.Pipe) { p.Deposit = network.Scale },
	"roots":    func(p *network.Pipe) { p.Deposit = network.Roots },
	"ice":      func(p *network.Pipe) { p.Deposit = network.Ice },
	"stoppage": func(p *network.Pipe) { p.Deposit = network.HardStoppage },
	"unknown":  func(p *network.Pipe) { p.Deposit = network.UnknownDep },
	"light":    func(p *network.Pipe) { p.Severity = network.Light },
	"moderate": func(p *network.Pipe) { p.Severity = network.Moderate },
	"heavy":    func(p *network.Pipe) { p.Severity = network.Heavy },
	"lateral":  func(p *network.Pipe) { p.Class = network.Lateral },
	"branch":   func(p *network.Pipe) { p.Class = network.Branch },
	"main":     func(p *network.Pipe) { p.Class = network.Main },
	"stack":    func(p *network.Pipe) { p.Class = network.Stack },
	"drain":    func(p *network.Pipe) { p.Class = network.BuildingDrain },
	"sewer":    func(p *network.Pipe) { p.Class = network.BuildingSewer },
	"fragile":  func(p *network.Pipe) { p.Fragile = true },
	"out":      func(p *network.Pipe) { p.OutOfJob = true },
}

// pipeWord applies one field to a pipe.
func pipeWord(p *network.Pipe, word string) error {
	if set, ok := pipeWords[word]; ok {
		set(p)
		return nil
	}
	key, value, ok := strings.Cut(word, "=")
	switch {
	case ok && key == "id":
		p.ID = network.PipeID(value)
	case ok && key == "label":
		p.Label = value
	case ok && key == "slope":
		v, err := number(strings.TrimSuffix(value, "%"))
		s := unit.Slope(v / 100)
		p.Slope = &s
		return err
	case ok && key == "ceiling":
		v, err := number(strings.TrimSuffix(value, "psi"))
		c := unit.Psi(v)
		p.Ceiling = &c
		return err
	case ok:
		return fmt.Errorf("unknown word %q", word)
	case strings.HasSuffix(word, "in"):
		s, err := size(word)
		p.Size = s
		return err
	default:
		l, err := length(word)
		p.Length = &l
		return err
	}
	return nil
}

// length reads "40ft", "12.5m" or "6in".
func length(s string) (unit.Length, error) {
	for _, u := range []struct {
		suffix string
		of     func(float64) unit.Length
	}{{"ft", unit.Feet}, {"in", unit.Inches}, {"m", unit.Metres}} {
		if rest, ok := strings.CutSuffix(s, u.suffix); ok {
			v, err := number(rest)
			return u.of(v), err
		}
	}
	return 0, fmt.Errorf("%q is no length such as 40ft or 12.5m", s)
}

// size reads "4in".
func size(s string) (unit.Size, error) {
	v, err := number(strings.TrimSuffix(s, "in"))
	return unit.Size(v), err
}

// angle reads degrees.
func angle(s string) (unit.Angle, error) {
	v, err := number(s)
	return unit.Degrees(v), err
}

// number reads a finite number.
func number(s string) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is no number", s)
	}
	return v, nil
}
