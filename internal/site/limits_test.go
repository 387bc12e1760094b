package site

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestProblemsAreCounted(t *testing.T) {
	text := change(t, `["p4"]`, `[`+strings.Repeat(`"", `, 29)+`""]`)
	_, err := Decode([]byte(text))
	var e *LoadError
	require.ErrorAs(t, err, &e)
	assert.Len(t, e.Problems, MaxProblems)
	// Thirty empty ids, 29 of them a second time, in a list that holds two.
	assert.Equal(t, 30+29+1-MaxProblems, e.More)
	assert.True(t, strings.HasSuffix(err.Error(), "; and 57 more"), err.Error())
	assert.Equal(t, 3, strings.Count(err.Error(), ": found "))
}

func TestProblemsAreInOrderOfTheDocument(t *testing.T) {
	text := change(t, `"size": 1.5`, `"size": 9`)
	text = strings.Replace(text, `"x": 10.5`, `"x": true`, 1)
	text = strings.Replace(text, `"units": "us"`, `"units": 3`, 1)
	_, err := Decode([]byte(text))
	assert.EqualError(t, err, `units: found 3, must be one of "us", "metric"; `+
		`network.nodes[co1].at.x: found true, must be a number from -100000 to 100000 m; `+
		`network.pipes[p5].size: found 9 in nominal, must be one of 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 18, 21, 24 in nominal`)
}

// TestPathsUseIDsThatComeLater breaks an element before its id is read.
func TestPathsUseIDsThatComeLater(t *testing.T) {
	_, err := Decode([]byte(change(t, `{"id": "f1", "kind": "fixture", "at": {"x": 20, "y": 9}}`, `{"kind": "sink", "at": {"x": 20, "y": 9}, "id": "f1"}`)))
	assert.ErrorContains(t, err, "network.nodes[f1].kind: found")
}

func TestTooManyElements(t *testing.T) {
	for _, c := range []struct{ list, before, element, want string }{
		{"nodes", `"nodes": [`, `{"id": "x%d", "kind": "cap", "at": {"x": 0, "y": 0}}`, "network.nodes: found a list of 200008, must be a list [] of at most 200000"},
		{"pipes", `"pipes": [`, `{"id": "x%d", "from": "f1", "to": "t1", "size": 2, "material": "clay", "class": "main"}`, "network.pipes: found a list of 200007, must be a list [] of at most 200000"},
	} {
		var b strings.Builder
		b.WriteString(c.before)
		for i := range 200001 {
			fmt.Fprintf(&b, c.element+",", i)
		}
		_, err := Decode([]byte(change(t, c.before, b.String())))
		assert.EqualError(t, err, c.want)
	}
}

func TestTooManyBytes(t *testing.T) {
	big := make([]byte, MaxBytes+1)
	_, err := Decode(big)
	assert.EqualError(t, err, "the document: found 67108865 bytes, must be at most 67108864 bytes")

	file := filepath.Join(t.TempDir(), "big"+Extension)
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	require.NoError(t, os.Truncate(file, MaxBytes+1))
	_, err = Open(file)
	assert.ErrorContains(t, err, "big.linemap: 67108865 bytes, at most 67108864 are read")
}
