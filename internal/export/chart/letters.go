package chart

import (
	"strings"
	"unicode"
)

// letters are the trade's letters on drawings, with what they stand for.
var letters = map[string]string{
	"CO":   "cleanout",
	"MH":   "manhole",
	"CB":   "catch basin",
	"VTR":  "vent through roof",
	"PULL": "fixture pulled for access",
	"FD":   "floor drain",
	"BWV":  "backwater valve",
	"HYD":  "hydrant",
	"HB":   "hose bib",
	"TKR":  "water tanker",
	"PVC":  "plastic",
	"ABS":  "plastic",
	"CI":   "cast iron",
	"VCP":  "vitrified clay",
	"CONC": "concrete",
}

// lettered puts the trade's letters before a label that does not begin with
// trade letters of its own, or with the word that they stand for.
func lettered(code, label string) string {
	if word := letters[code]; word != "" && strings.HasPrefix(strings.ToLower(label), word) {
		return label
	}
	first := strings.FieldsFunc(label, func(r rune) bool { return !unicode.IsLetter(r) })
	switch {
	case code == "" || label == "":
		return strings.TrimSpace(code + label)
	case len(first) > 0 && strings.HasPrefix(label, first[0]) && letters[first[0]] != "":
		return label
	}
	return code + " " + label
}

// coded reports whether a label begins with a code of its own, such as WCO-2:
// two to four capitals and then a digit or a hyphen. Such a label stands on the
// door as it is.
func coded(label string) bool {
	n := 0
	for n < len(label) && label[n] >= 'A' && label[n] <= 'Z' {
		n++
	}
	if n < 2 || n > 4 || n == len(label) {
		return false
	}
	next := strings.TrimLeft(label[n:], " ")
	return next != "" && (next[0] == '-' || next[0] >= '0' && next[0] <= '9')
}
