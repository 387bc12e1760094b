package form

import (
	"fmt"
	"math"
	"strings"

	"linemap/internal/site"
	"linemap/internal/ui/desk"
	"linemap/internal/unit"
)

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

// slider is a field for a share of one.
func slider[T any](label, member string, at func(*T) *float64) field[T] {
	f := number(label, member, &unit.Shares, at)
	f.way = slid
	return f
}
