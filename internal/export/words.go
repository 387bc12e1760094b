package export

import (
	"cmp"
	"strings"
	"unicode"
	"unicode/utf8"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/route"
	"linemap/internal/site"
	"linemap/internal/unit"
)

// The trade's words for the keys of the document, as they stand inside a
// sentence. A key without a word of its own is printed with its underscores
// as blanks.

var accessWords = map[network.AccessKind]string{
	network.OneWayCleanout: "one-way cleanout",
	network.TwoWayCleanout: "two-way cleanout",
	network.Manhole:        "manhole",
	network.PulledFixture:  "pulled fixture",
	network.RoofVent:       "roof vent",
	network.CatchBasin:     "catch basin",
}

var eventWords = map[route.EventKind]string{
	route.EventSetUp:        "set up",
	route.EventPackUp:       "pack up",
	route.EventMove:         "move the trailer",
	route.EventDrain:        "drain the tank",
	route.EventFill:         "fill the tank",
	route.EventHoseChange:   "change the hose",
	route.EventOpen:         "lay hose, open and close accesses",
	route.EventStart:        "start each run",
	route.EventJet:          "jetting",
	route.EventNozzleChange: "change nozzles",
	route.EventWait:         "wait for water",
}

var passWords = map[site.PassKind]string{
	site.OpenPass:    "open",
	site.RootCutPass: "cut roots",
	site.CleanPass:   "clean",
	site.FinishPass:  "finish",
}

var waterWords = map[site.WaterKind]string{
	site.Hydrant: "hydrant",
	site.HoseBib: "hose bib",
	site.Tanker:  "tanker",
}

// materialWords are short: what a crew must know of a pipe's wall.
var materialWords = map[network.Material]string{
	network.PVC40:    "PVC",
	network.ABS40:    "ABS",
	network.CastIron: "cast iron",
}

var classWords = map[network.PipeClass]string{
	network.Lateral:       "lateral",
	network.Stack:         "stack",
	network.BuildingDrain: "building drain",
	network.BuildingSewer: "building sewer",
}

// word returns the trade's word for a key.
func word[K ~string](words map[K]string, key K) string {
	if w, ok := words[key]; ok {
		return w
	}
	return strings.ReplaceAll(string(key), "_", " ")
}

// footage is what a crew calls a reading of the hose counter.
func footage(sys unit.System) string {
	if sys == unit.Metric {
		return "reading"
	}
	return "footage"
}

// purposes lists what a nozzle is for: "pulling, flushing".
func purposes(n *rig.Nozzle) string {
	words := make([]string, len(n.Purposes))
	for i, p := range n.Purposes {
		words[i] = word(nil, p)
	}
	return strings.Join(words, ", ")
}

// sentence sets a capital at the start of s and a stop at its end.
func sentence(s string) string {
	if s = capital(strings.TrimSpace(s)); s == "" || strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}

// sentences makes a sentence of every part that is not empty.
func sentences(parts ...string) string {
	said := make([]string, 0, len(parts))
	for _, p := range parts {
		if p = sentence(p); p != "" {
			said = append(said, p)
		}
	}
	return strings.Join(said, " ")
}

// capital sets a capital letter at the start of s.
func capital(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	if !unicode.IsLower(r) {
		return s
	}
	return string(unicode.ToUpper(r)) + s[size:]
}

// small sets a small letter at the start of s, unless a capital follows: "PVC"
// stays.
func small(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	if next, _ := utf8.DecodeRuneInString(s[size:]); !unicode.IsUpper(r) || unicode.IsUpper(next) {
		return s
	}
	return string(unicode.ToLower(r)) + s[size:]
}

// list joins what is not empty with commas.
func list(parts ...string) string {
	kept := parts[:0:0]
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, ", ")
}

// lookup finds the item of a slice that has a key, nil where there is none.
func lookup[T any, K cmp.Ordered](items []T, key K, of func(*T) K) *T {
	for i := range items {
		if of(&items[i]) == key {
			return &items[i]
		}
	}
	return nil
}
