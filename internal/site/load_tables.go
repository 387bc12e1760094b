package site

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"github.com/go-json-experiment/json"

	"linemap/assets"
	"linemap/internal/network"
	"linemap/internal/unit"
)

// LoadTables reads the trade's figures that travel inside the program. An
// error means that the program was built with a table it cannot use, and names
// the file, the row and the figure.
func LoadTables() (*Tables, error) {
	t := new(Tables)
	for _, f := range []struct {
		name string
		into any
	}{
		{"materials", &t.Materials},
		{"deposits", &t.Deposits},
		{"codes", &t.Codes},
		{"cures", &t.Cures},
	} {
		data, err := assets.FS.ReadFile("trade/" + f.name + ".json")
		if err != nil {
			return nil, err
		}
		if err := json.Unmarshal(data, f.into, decoding, json.RejectUnknownMembers(true)); err != nil {
			return nil, fmt.Errorf("trade table %s: %w", f.name, err)
		}
	}
	return t, t.check()
}

// Bore returns the true bore of a material's nominal size, and false where the
// tables have none.
func (t *Tables) Bore(m network.Material, sz unit.Size) (unit.Length, bool) {
	bore, ok := t.Materials[m].Bores[sz]
	return bore, ok
}

// sortedKeys lists the keys of a map in order.
func sortedKeys[K cmp.Ordered, V any](m map[K]V) []K { return slices.Sorted(maps.Keys(m)) }
