package site

import (
	"fmt"
	"math"
	"strings"

	"linemap/internal/unit"
)

// Range is what the schema takes for one member of a document, for a form that
// shows it while someone types.
type Range struct {
	// Min and Max bound a number in the unit that memory keeps it in, infinite
	// where there is no bound; Above says that Min itself is too little. Whole
	// numbers have no fraction.
	Min, Max float64
	Above    bool
	Whole    bool
	// Longest is the most characters of a text, 0 for no text.
	Longest int
	// Choices are the keys that a text may be, in order; Sizes the same of a
	// nominal pipe size.
	Choices []string
	Sizes   []unit.Size
}

// RangeOf returns the range of a member of v, which is as for [Check]: "invert"
// of a node, "access.riser", "crew.people" or "hoses.bore" of a rig. A member
// that there is not is a fault of the caller, and told.
func RangeOf(v any, member string) (Range, error) {
	root, err := siteSchema()
	if err != nil {
		return Range{}, err
	}
	name, ok := schemaName(v)
	if !ok {
		return Range{}, fmt.Errorf("a %T is no part of a document", v)
	}
	s := root.Defs[name]
	for step := range strings.SplitSeq(member, ".") {
		if s.Items != nil {
			s = s.Items
		}
		if s = s.Members[step]; s == nil {
			return Range{}, fmt.Errorf("a %s has no member %q", name, member)
		}
	}
	if s.Items != nil {
		s = s.Items
	}
	return s.asRange(), nil
}

func (s *schema) asRange() Range {
	r := Range{Min: math.Inf(-1), Max: math.Inf(1), Whole: s.Type == "integer"}
	inMemory := memory(s.Unit)
	switch {
	case s.Above != nil:
		r.Min, r.Above = inMemory(*s.Above), true
	case s.Min != nil:
		r.Min = inMemory(*s.Min)
	}
	if s.Max != nil {
		r.Max = inMemory(*s.Max)
	}
	if s.MaxLength != nil {
		r.Longest = *s.MaxLength
	}
	for _, v := range s.Enum {
		switch v := v.(type) {
		case string:
			r.Choices = append(r.Choices, v)
		case float64:
			r.Sizes = append(r.Sizes, unit.Size(v))
		}
	}
	return r
}

// memory returns what turns a figure of a file into the one that memory keeps.
func memory(fileUnit string) func(float64) float64 {
	switch fileUnit {
	case "deg":
		return func(v float64) float64 { return float64(unit.Degrees(v)) }
	case "kPa":
		return func(v float64) float64 { return float64(kilopascals(v)) }
	case "L/min":
		return func(v float64) float64 { return float64(unit.LitresPerMinute(v)) }
	case "L":
		return func(v float64) float64 { return float64(unit.Litres(v)) }
	case "m/min":
		return func(v float64) float64 { return float64(unit.MetresPerMinute(v)) }
	}
	return func(v float64) float64 { return v }
}
