package form

import (
	"errors"
	"fmt"
	"slices"

	"linemap/internal/export"
	"linemap/internal/site"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

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
