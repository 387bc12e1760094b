package site

import (
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/go-json-experiment/json"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestLoaderAgreesWithSchema mutates a document and asks the loader's walk and
// an independent validator for their verdicts: they are the same, and the
// loader never takes what the schema refuses.
func TestLoaderAgreesWithSchema(t *testing.T) {
	v := validator(t)
	root, err := siteSchema()
	require.NoError(t, err)
	var intact any
	require.NoError(t, json.Unmarshal([]byte(whole), &intact))
	rnd := rand.New(rand.NewPCG(20, 26))
	good, bad := 0, 0
	rounds := 4000
	if raced {
		rounds /= 10
	}
	for range rounds {
		doc := copyOf(intact)
		for range 1 + rnd.IntN(2) {
			doc = mutate(rnd, doc, intact)
		}
		data, err := json.Marshal(doc, json.Deterministic(true))
		require.NoError(t, err)
		refused := validate(t, v, data)
		_, found := check(data, root)
		require.Equal(t, refused == nil, found.err() == nil, "schema: %v\nloader: %v\n%s", refused, found.err(), data)
		if _, err := Decode(data); err == nil {
			require.NoError(t, refused)
		}
		if refused == nil {
			good++
		} else {
			bad++
		}
	}
	assert.Greater(t, good, rounds/10, "mutations that the schema takes")
	assert.Greater(t, bad, rounds/4, "mutations that it refuses")
}

// mutate changes one value of a tree: it is replaced, dropped, doubled or
// exchanged for one from elsewhere.
func mutate(rnd *rand.Rand, doc, pool any) any {
	target := rnd.IntN(count(doc))
	n := -1
	var walk func(v any) (any, bool)
	walk = func(v any) (any, bool) {
		if n++; n == target {
			return mutant(rnd, v, pool)
		}
		switch v := v.(type) {
		case map[string]any:
			for _, name := range slices.Sorted(maps.Keys(v)) {
				if in, keep := walk(v[name]); keep {
					v[name] = in
				} else {
					delete(v, name)
				}
			}
		case []any:
			var out []any
			for _, e := range v {
				if in, keep := walk(e); keep {
					out = append(out, in)
				}
			}
			return append([]any{}, out...), true
		}
		return v, true
	}
	out, keep := walk(doc)
	if !keep {
		return nil
	}
	return out
}

func mutant(rnd *rand.Rand, v, pool any) (any, bool) {
	switch rnd.IntN(8) {
	case 0, 1:
		return nil, false
	case 2:
		return pick(rnd, pool), true
	case 3:
		if list, ok := v.([]any); ok && len(list) > 0 {
			return append(list, copyOf(list[rnd.IntN(len(list))])), true
		}
	case 4:
		if f, ok := v.(float64); ok {
			return f * []float64{-1, 0.5, 1000, 1e9}[rnd.IntN(4)], true
		}
	case 5:
		if object, ok := v.(map[string]any); ok {
			names := []string{"access", "water", "new", "facing", "junction", "x", "via", "data", "file"}
			object[names[rnd.IntN(len(names))]] = pick(rnd, pool)
			return object, true
		}
	}
	values := []any{
		nil, true, false, 0.0, -1.0, 0.5, 2.0, 4.0, 360.5, 1e9, "", "x", "two words", "access", "junction", "up", "us",
		"cleanout_one_way", "2026-03-17", "12:00", "iVBORw0KGgo=", "AAA=A", strings.Repeat("é", 65),
		[]any{},
		map[string]any{},
	}
	return values[rnd.IntN(len(values))], true
}

// pick returns a copy of a random value of a tree.
func pick(rnd *rand.Rand, v any) any {
	target, n := rnd.IntN(count(v)), -1
	var found any
	var walk func(v any)
	walk = func(v any) {
		if n++; n == target {
			found = copyOf(v)
		}
		switch v := v.(type) {
		case map[string]any:
			for _, name := range slices.Sorted(maps.Keys(v)) {
				walk(v[name])
			}
		case []any:
			for _, e := range v {
				walk(e)
			}
		}
	}
	walk(v)
	return found
}

func count(v any) int {
	n := 1
	switch v := v.(type) {
	case map[string]any:
		for _, in := range v {
			n += count(in)
		}
	case []any:
		for _, in := range v {
			n += count(in)
		}
	}
	return n
}

func copyOf(v any) any {
	switch v := v.(type) {
	case map[string]any:
		c := make(map[string]any, len(v))
		for name, in := range v {
			c[name] = copyOf(in)
		}
		return c
	case []any:
		c := make([]any, len(v))
		for i, in := range v {
			c[i] = copyOf(in)
		}
		return c
	}
	return v
}
