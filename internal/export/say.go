package export

import (
	"linemap/internal/network"
	"linemap/internal/site"
)

// Word returns the trade's word for a key of the document as it stands inside a
// sentence, as the papers have it: "one-way cleanout", "building drain".
func Word[K ~string](key K) string {
	switch k := any(key).(type) {
	case network.AccessKind:
		return word(accessWords, k)
	case network.PipeClass:
		return word(classWords, k)
	case site.WaterKind:
		return word(waterWords, k)
	case site.Condition:
		return word(conditionWords, k)
	}
	return word(nil, key)
}

// Capital sets a capital letter at the start of s.
func Capital(s string) string { return capital(s) }

// Sentence sets a capital at the start of s and a stop at its end.
func Sentence(s string) string { return sentence(s) }
