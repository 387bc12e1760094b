package form

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"linemap/internal/export"
	"linemap/internal/site"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

// way is how a field is filled in.
type way int

const (
	typed   way = iota // one line
	written            // several lines
	chosen             // one of a list
	ticked             // yes or no
	slid               // a share, by a slider
	told               // not at all: it only says something
)

// The texts of a ticked field.
const yes, no = "yes", "no"

// field is one line of a form about things of type T. Whatever it holds goes in
// and out as text.
type field[T any] struct {
	label string
	// name is what the field is called in the name of a step, the label in small
	// letters where it is empty.
	name string
	way  way
	hint string // stands in an empty field
	// show writes what a thing has; false for a thing without such a figure.
	show func(d *desk.Desk, v *T) (string, bool)
	// same compares the figures of two things without writing them, for that
	// takes its time with thousands of things; nil where it is not worth it. There
	// is as for show, of b.
	same func(a, b *T) (equal, there bool)
	// read makes of a text what is to be done to each thing.
	read func(d *desk.Desk, text string) (func(*T), error)
	// options lists what can be chosen; v is the first of the things.
	options func(d *desk.Desk, v *T) []string
	// tell is what a field that only tells says of all the things together, ""
	// for nothing.
	tell func(d *desk.Desk, all []*T) string
	// fault is set where the field is about no member of the schema.
	fault error
}

func (f *field[T]) called() string {
	if f.name != "" {
		return f.name
	}
	return strings.ToLower(f.label)
}

// as gives the field another name in the names of steps.
func (f field[T]) as(name string) field[T] { f.name = name; return f }

// like hints at what an empty field means or wants.
func (f field[T]) like(hint string) field[T] { f.hint = hint; return f }

// text is a field for a text of one line.
func text[T any, S ~string](label, member string, at func(*T) *S) field[T] {
	var none T
	r, err := site.RangeOf(none, member)
	return field[T]{
		label: label, fault: err, same: sameAt(at),
		show: func(_ *desk.Desk, v *T) (string, bool) {
			if p := at(v); p != nil {
				return string(*p), true
			}
			return "", false
		},
		read: func(_ *desk.Desk, text string) (func(*T), error) {
			text = strings.TrimSpace(text)
			if n := utf8.RuneCountInString(text); r.Longest > 0 && n > r.Longest {
				return nil, fmt.Errorf("%d characters, at most %d can be kept", n, r.Longest)
			}
			return func(v *T) {
				if p := at(v); p != nil {
					*p = S(text)
				}
			}, nil
		},
	}
}

// sameAt compares what two things have at a place.
func sameAt[T any, P comparable](at func(*T) *P) func(a, b *T) (equal, there bool) {
	return func(a, b *T) (equal, there bool) {
		p, q := at(a), at(b)
		return p != nil && q != nil && *p == *q, q != nil
	}
}

// note is a field for a text of several lines.
func note[T any](label, member string, at func(*T) *string) field[T] {
	f := text(label, member, at)
	f.way = written
	return f
}

// number is a field for a quantity that is always there.
func number[T any, Q ~float64](label, member string, m *unit.Measure[Q], at func(*T) *Q) field[T] {
	var none T
	r, err := site.RangeOf(none, member)
	return field[T]{
		label: label, fault: err, same: sameAt(at),
		show: func(d *desk.Desk, v *T) (string, bool) {
			if p := at(v); p != nil {
				return m.Write(*p, d.Units()), true
			}
			return "", false
		},
		read: func(d *desk.Desk, text string) (func(*T), error) {
			q, err := within(m, r, text, d.Units())
			return func(v *T) {
				if p := at(v); p != nil {
					*p = q
				}
			}, err
		},
	}
}

// optional is a field for a quantity that may be left out; its hint says what
// that means.
func optional[T any, Q ~float64](label, member string, m *unit.Measure[Q], hint string, at func(*T) **Q) field[T] {
	var none T
	r, err := site.RangeOf(none, member)
	return field[T]{
		label: label, hint: hint, fault: err,
		same: func(a, b *T) (equal, there bool) {
			p, q := at(a), at(b)
			if p == nil || q == nil {
				return false, q != nil
			}
			return *p == *q || *p != nil && *q != nil && **p == **q, true
		},
		show: func(d *desk.Desk, v *T) (string, bool) {
			p := at(v)
			if p == nil || *p == nil {
				return "", p != nil
			}
			return m.Write(**p, d.Units()), true
		},
		read: func(d *desk.Desk, text string) (func(*T), error) {
			var q *Q
			if strings.TrimSpace(text) != "" {
				got, err := within(m, r, text, d.Units())
				if err != nil {
					return nil, err
				}
				q = &got
			}
			return func(v *T) {
				if p := at(v); p != nil {
					if *p = nil; q != nil {
						own := *q // things share no figure
						*p = &own
					}
				}
			}, nil
		},
	}
}

// orNone is a field for a quantity of which zero means something of its own,
// which the hint says: such a one is shown empty.
func orNone[T any, Q ~float64](label, member string, m *unit.Measure[Q], hint string, at func(*T) *Q) field[T] {
	f := optional(label, member, m, hint, func(v *T) **Q {
		p := at(v)
		if p == nil {
			return nil
		}
		if *p == 0 {
			p = nil
		}
		return &p
	})
	read := f.read
	f.read = func(d *desk.Desk, text string) (func(*T), error) {
		if strings.TrimSpace(text) == "" {
			text = "0"
			return func(v *T) {
				if p := at(v); p != nil {
					*p = 0
				}
			}, nil
		}
		if _, err := read(d, text); err != nil {
			return nil, err
		}
		q, err := m.Parse(text, d.Units())
		return func(v *T) {
			if p := at(v); p != nil {
				*p = q
			}
		}, err
	}
	return f
}

// whole is a field for a number of things.
func whole[T any](label, member string, at func(*T) *int) field[T] {
	var none T
	r, err := site.RangeOf(none, member)
	return field[T]{
		label: label, fault: err,
		show: func(d *desk.Desk, v *T) (string, bool) {
			if p := at(v); p != nil {
				return fmt.Sprint(*p), true
			}
			return "", false
		},
		read: func(d *desk.Desk, text string) (func(*T), error) {
			n, err := within(&unit.Numbers, r, text, d.Units())
			return func(v *T) {
				if p := at(v); p != nil {
					*p = int(n)
				}
			}, err
		},
	}
}

// within reads a quantity and holds it against what the schema takes.
func within[Q ~float64](m *unit.Measure[Q], r site.Range, text string, s unit.System) (Q, error) {
	q, err := m.Parse(text, s)
	if err != nil {
		return 0, err
	}
	v, found := float64(q), m.Write(q, s)
	switch {
	case r.Above && v <= r.Min:
		return 0, fmt.Errorf("%s is too little: it must be more than %s", found, limit(m, r, Q(r.Min), s))
	case v < r.Min:
		return 0, fmt.Errorf("%s is too little: at least %s", found, limit(m, r, Q(r.Min), s))
	case v > r.Max:
		return 0, fmt.Errorf("%s is too much: at most %s", found, limit(m, r, Q(r.Max), s))
	case r.Whole && v != math.Trunc(v):
		return 0, fmt.Errorf("%s is no whole number", found)
	}
	return q, nil
}

// limit writes a limit, in metric units too where it would not be taken as it is
// written, for the rounding.
func limit[Q ~float64](m *unit.Measure[Q], r site.Range, q Q, s unit.System) string {
	text := m.Write(q, s)
	if back, err := m.Parse(text, s); err == nil && (float64(back) < r.Min || float64(back) > r.Max) {
		text += " (" + m.Write(q, unit.Metric) + ")"
	}
	return text
}

// tick is a field for yes or no.
func tick[T any](label string, at func(*T) *bool) field[T] {
	return field[T]{
		label: label, way: ticked, same: sameAt(at),
		show: func(_ *desk.Desk, v *T) (string, bool) {
			p := at(v)
			switch {
			case p == nil:
				return "", false
			case *p:
				return yes, true
			}
			return no, true
		},
		read: func(_ *desk.Desk, text string) (func(*T), error) {
			return func(v *T) {
				if p := at(v); p != nil {
					*p = text == yes
				}
			}, nil
		},
	}
}

// slider is a field for a share of one.
func slider[T any](label, member string, at func(*T) *float64) field[T] {
	f := number(label, member, &unit.Shares, at)
	f.way = slid
	return f
}

// fact is a line that only says something of what is selected.
func fact[T any](label string, tell func(d *desk.Desk, all []*T) string) field[T] {
	return field[T]{label: label, way: told, tell: tell}
}

// factOf is a fact of one thing alone.
func factOf[T any](label string, tell func(d *desk.Desk, v *T) string) field[T] {
	return fact(label, func(d *desk.Desk, all []*T) string {
		if len(all) != 1 {
			return ""
		}
		return tell(d, all[0])
	})
}

// option is one of the keys that can be chosen, with its word.
type option[K comparable] struct {
	key  K
	word string
}

// choice is a field for one of some keys.
func choice[T any, K comparable](label string, at func(*T) *K, options func(d *desk.Desk, v *T) []option[K]) field[T] {
	var all []option[K] // those listed last, by which what is chosen is read
	return field[T]{
		label: label, way: chosen, same: sameAt(at),
		show: func(d *desk.Desk, v *T) (string, bool) {
			p := at(v)
			if p == nil {
				return "", false
			}
			for _, o := range options(d, v) {
				if o.key == *p {
					return o.word, true
				}
			}
			return fmt.Sprint(*p), true
		},
		options: func(d *desk.Desk, v *T) []string {
			all = options(d, v)
			words := make([]string, len(all))
			for i, o := range all {
				words[i] = o.word
			}
			return words
		},
		read: func(_ *desk.Desk, text string) (func(*T), error) {
			i := slices.IndexFunc(all, func(o option[K]) bool { return o.word == text })
			if i < 0 {
				return nil, errors.New("choose one of the list")
			}
			key := all[i].key
			return func(v *T) {
				if p := at(v); p != nil {
					*p = key
				}
			}, nil
		},
	}
}

// keys is a choice of the keys that the schema takes, with the trade's words.
func keys[T any, K ~string](label, member string, at func(*T) *K, say func(d *desk.Desk, k K) string) field[T] {
	var none T
	r, err := site.RangeOf(none, member)
	if say == nil {
		say = func(_ *desk.Desk, k K) string { return export.Capital(export.Word(k)) }
	}
	f := choice(label, at, func(d *desk.Desk, _ *T) []option[K] {
		all := make([]option[K], len(r.Choices))
		for i, c := range r.Choices {
			all[i] = option[K]{K(c), say(d, K(c))}
		}
		return all
	})
	f.fault = err
	return f
}

// sizes is a choice of a nominal pipe size, by both its names.
func sizes[T any](label, member string, at func(*T) *unit.Size) field[T] {
	var none T
	r, err := site.RangeOf(none, member)
	f := choice(label, at, func(d *desk.Desk, _ *T) []option[unit.Size] {
		all := make([]option[unit.Size], len(r.Sizes))
		for i, s := range r.Sizes {
			first, second := s.In(unit.US), s.In(unit.Metric)
			if d.Units() == unit.Metric {
				first, second = second, first
			}
			all[i] = option[unit.Size]{s, first + " (" + second + ")"}
		}
		return all
	})
	f.fault = err
	return f
}
