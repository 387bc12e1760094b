package chart

import (
	"strings"
	"unicode"

	"linemap/internal/network"
	"linemap/internal/site"
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

var accessLetters = map[network.AccessKind]string{
	network.OneWayCleanout: "CO",
	network.TwoWayCleanout: "CO",
	network.Manhole:        "MH",
	network.CatchBasin:     "CB",
	network.RoofVent:       "VTR",
	network.PulledFixture:  "PULL",
}

var waterLetters = map[site.WaterKind]string{
	site.Hydrant: "HYD",
	site.HoseBib: "HB",
	site.Tanker:  "TKR",
}

// lettered puts the trade's letters before a label that does not begin with
// trade letters of its own.
func lettered(code, label string) string {
	first := strings.FieldsFunc(label, func(r rune) bool { return !unicode.IsLetter(r) })
	switch {
	case code == "" || label == "":
		return strings.TrimSpace(code + label)
	case len(first) > 0 && strings.HasPrefix(label, first[0]) && letters[first[0]] != "":
		return label
	}
	return code + " " + label
}
