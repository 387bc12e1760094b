package form

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"linemap/internal/site"
	"linemap/internal/ui/desk"
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
