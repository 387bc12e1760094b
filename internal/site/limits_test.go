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

// TestOneFaultOneProblem asks that a missing kind does not make the loader
// guess which members it would call for.
func TestOneFaultOneProblem(t *testing.T) {
	_, err := Decode([]byte(change(t, `"id": "vent", "kind": "access"`, `"id": "vent"`)))
	var e *LoadError
	require.ErrorAs(t, err, &e)
	assert.Len(t, e.Problems, 1, err.Error())
}

// TestTextsAsLongAsTheyMayBe counts characters, not bytes.
func TestTextsAsLongAsTheyMayBe(t *testing.T) {
	title := strings.Repeat("é", 200)
	s, err := Decode([]byte(change(t, `"title": "Example bakery"`, `"title": "`+title+`"`)))
	require.NoError(t, err)
	assert.Equal(t, title, s.Job.Title)
}

// TestPathsUseIDsThatComeLater breaks an element before its id is read.
func TestPathsUseIDsThatComeLater(t *testing.T) {
	_, err := Decode([]byte(change(t, `{"id": "f1", "kind": "fixture", "at": {"x": 20, "y": 9}}`, `{"kind": "sink", "at": {"x": 20, "y": 9}, "id": "f1"}`)))
	assert.ErrorContains(t, err, "network.nodes[f1].kind: found")
}

func TestTooManyElements(t *testing.T) {
	for _, c := range []struct {
		list, before, element string
		most                  int
	}{
		{"spots", `"spots": [`, `{"id": "x%d", "label": "", "at": {"x": 0, "y": 0}}`, 1000},
		{"water_points", `"water_points": [`, `{"id": "x%d", "label": "", "kind": "hydrant", "at": {"x": 0, "y": 0}, "flow": 9}`, 1000},
		{"network.levels", `"levels": [`, `{"name": "x%d", "elevation": 0}`, 1000},
	} {
		var b strings.Builder
		b.WriteString(c.before)
		for i := range c.most {
			fmt.Fprintf(&b, c.element+",", i)
		}
		_, err := Decode([]byte(change(t, c.before, b.String())))
		assert.ErrorContains(t, err, fmt.Sprintf("%s: found a list of ", c.list))
		assert.ErrorContains(t, err, fmt.Sprintf("must be a list [] of at most %d", c.most))
	}
}

// TestEverythingIsBounded walks the schema: every list has a largest count,
// every text a largest length or a form, every number both its ends.
func TestEverythingIsBounded(t *testing.T) {
	root, err := siteSchema()
	require.NoError(t, err)
	var walk func(where string, s *schema)
	walk = func(where string, s *schema) {
		switch {
		case s.Enum != nil || s.Const != nil || s.Type == "boolean":
		case s.Type == "array":
			assert.NotNil(t, s.MaxItems, where)
			walk(where+"[]", s.Items)
		case s.Type == "string":
			assert.True(t, s.MaxLength != nil || s.Form != "", where)
		case s.Type == "number" || s.Type == "integer":
			assert.NotNil(t, s.Max, where)
			assert.NotEqual(t, s.Min == nil, s.Above == nil, "%s: one lower end", where)
		default:
			require.Equal(t, "object", s.Type, where)
			require.NotEmpty(t, s.Members, where)
			for _, name := range sortedKeys(s.Members) {
				walk(where+"."+name, s.Members[name])
			}
		}
	}
	walk("site", root)
	net := root.Members["network"]
	assert.Equal(t, 200_000, *net.Members["nodes"].MaxItems)
	assert.Equal(t, 200_000, *net.Members["pipes"].MaxItems)
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
