package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// longest is how many characters of a quantity are read.
const longest = 64

// Parse reads a quantity as typed: a number, a fraction or both, with any unit
// of its measure, else with the one that goes without saying in s. Feet may be
// followed by inches, hours by minutes.
func (m *Measure[Q]) Parse(text string, s System) (Q, error) {
	v, ok := m.read(text, s)
	if !ok {
		shown := text
		if utf8.RuneCountInString(shown) > longest {
			shown = string([]rune(shown)[:longest]) + "..."
		}
		return 0, fmt.Errorf("%q is no %s: write it like %s", shown, m.name, m.example)
	}
	return Q(v), nil
}

// read adds up the terms of a quantity.
func (m *Measure[Q]) read(text string, s System) (float64, bool) {
	if utf8.RuneCountInString(text) > longest {
		return 0, false
	}
	text = strings.TrimSpace(tidy.Replace(text))
	sign := 1.0
	if rest, minus := strings.CutPrefix(text, "-"); minus {
		sign, text = -1, strings.TrimSpace(rest)
	} else {
		text = strings.TrimPrefix(text, "+")
	}
	if m.ratio {
		if one, to, ok := strings.Cut(text, ":"); ok {
			n, rest, okN := number(strings.TrimSpace(one), s)
			d, more, okD := number(strings.TrimSpace(to), s)
			v := sign * n / d
			return v, okN && okD && rest == "" && more == "" && finite(v)
		}
	}
	sum, bare, terms := 0.0, m.bare(s), 0
	for text != "" {
		n, rest, ok := number(text, s)
		if !ok {
			return 0, false
		}
		word := rest
		if next := strings.IndexAny(rest, "0123456789"); next >= 0 {
			word = rest[:next]
		}
		text = strings.TrimSpace(rest[len(word):])
		// A dash may stand between feet and inches; a point begins a number.
		trimmed := strings.TrimSpace(word)
		if text != "" {
			if stem, point := strings.CutSuffix(trimmed, "."); point && strings.HasSuffix(word, ".") {
				trimmed, text = strings.TrimSpace(stem), "."+text
			}
			trimmed = strings.TrimSpace(strings.TrimSuffix(trimmed, "-"))
		}
		if trimmed == "" {
			if terms > 0 && bare == "" || text != "" {
				return 0, false
			}
			trimmed = bare
		}
		u, ok := m.unit(trimmed)
		if !ok || terms > 0 && bare == "" {
			return 0, false
		}
		if terms > 0 && !strings.EqualFold(firstWord(u), bare) {
			return 0, false // only inches follow feet, only minutes hours
		}
		sum += sign * n * u.one
		if terms == 0 {
			sum += u.zero
		}
		bare, terms = u.then, terms+1
	}
	return sum, terms > 0 && finite(sum)
}

func firstWord(u scale) string { first, _, _ := strings.Cut(u.words, "|"); return first }

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// tidy writes the marks of type and of other keyboards in plain ones.
var tidy = strings.NewReplacer(
	"\u2019", "'", "\u2032", "'", "\u201d", `"`, "\u2033", `"`, "\u2212", "-", "\u2013", "-",
	"\u00a0", " ", "\u2009", " ", "\u202f", " ",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⁄", "/",
	"m3", "m³", "in2", "in²",
)

// number reads the number that text begins with: 12, 12.5, 3/8, 6 1/2, 6-1/2.
func number(text string, s System) (n float64, rest string, ok bool) {
	n, rest, ok = decimal(text, s)
	if !ok {
		return 0, text, false
	}
	if den, after, is := strings.Cut(rest, "/"); is && strings.TrimSpace(den) == "" {
		d, left, ok := decimal(strings.TrimLeft(after, " "), s)
		if !ok {
			return n, rest, true // a unit that begins with a stroke is no unit
		}
		return n / d, strings.TrimLeft(left, " "), d != 0
	}
	// A fraction after a whole number belongs to it, where one digit follows
	// the other with a stroke between.
	if part := strings.TrimLeft(rest, " -"); part != rest {
		if top, after, ok := decimal(part, s); ok && strings.HasPrefix(after, "/") {
			if bottom, left, ok := decimal(after[1:], s); ok && bottom != 0 {
				return n + top/bottom, strings.TrimLeft(left, " "), true
			}
		}
	}
	return n, strings.TrimLeft(rest, " "), true
}

// decimal reads the digits that text begins with. A comma parts thousands in US
// units and decimals in metric ones; 1,200 is neither for sure there.
func decimal(text string, s System) (n float64, rest string, ok bool) {
	end := 0
	for end < len(text) && (text[end] >= '0' && text[end] <= '9' || text[end] == '.' || text[end] == ',') {
		end++
	}
	digits, rest := text[:end], text[end:]
	if whole, parts, comma := strings.Cut(digits, ","); comma {
		switch {
		case s == Metric && len(parts) != 3 && !strings.ContainsAny(parts, ".,") && whole != "":
			digits = whole + "." + parts
		case s != Metric && thousands(digits):
			digits = strings.ReplaceAll(digits, ",", "")
		default:
			return 0, text, false
		}
	}
	n, err := strconv.ParseFloat(digits, 64)
	return n, rest, err == nil
}

// thousands reports whether the commas of a number stand before every three
// digits.
func thousands(digits string) bool {
	whole, _, _ := strings.Cut(digits, ".")
	groups := strings.Split(whole, ",")
	for i, g := range groups {
		if i > 0 && len(g) != 3 || i == 0 && (len(g) == 0 || len(g) > 3) {
			return false
		}
	}
	return true
}
