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
	text := change(t, `"via": [{"x": 8, "y": -6}]`, `"via": [`+strings.Repeat(`{"x": 1e9}, `, 30)+`{"x": 0, "y": 0}]`)
	_, err := Decode([]byte(text))
	var e *LoadError
	require.ErrorAs(t, err, &e)
	assert.Len(t, e.Problems, MaxProblems)
	assert.Equal(t, 2*30-MaxProblems, e.More, "thirty points that are too far east and have no y")
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
		{"areas", `"areas": [`, `{"id": "x%d", "label": "", "kind": "stand", "outline": [{"x": 0, "y": 0}]}`, 500},
		{"visits", `"visits": [`, `{"date": "2000-01-01", "x": %d}`, 1000},
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

// TestHostileTextIsRefused feeds the loader texts near the largest size that
// are made to cost time: each is refused by a limit, not read to its end.
func TestHostileTextIsRefused(t *testing.T) {
	if raced {
		t.Skip("the race detector makes everything slow")
	}
	const many = 10 << 20
	names := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, `"%d": 0, `, i)
		}
		return b.String()
	}
	for _, c := range []struct{ name, with, path, found string }{
		{"numbers for nodes", `"nodes": [` + strings.Repeat("0,", many), "network.nodes", "a list of more than 200000"},
		{"empty objects for nodes", `"nodes": [` + strings.Repeat("{},", many), "network.nodes", "a list of more than 200000"},
		{"unknown list", `"new": [` + strings.Repeat("0,", many) + `0], "nodes": [`, "network.new", "too many values of no use"},
		{"unknown object", `"new": {` + names(many/8) + `"z": 0}, "nodes": [`, "network.new", "too many values of no use"},
		{"unknown members", names(many/8) + `"nodes": [`, "network.500000", "too many values of no use"},
		{"object for a list", `"levels": {` + names(many/8) + `"z": 0}, "nodes": [`, "network.levels", "too many values of no use"},
		{"one long text", `"new": "` + strings.Repeat("x", MaxBytes*3/4) + `", "nodes": [], "others": [`, "lays[yard,co1].access", `"co1"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := change(t, `"nodes": [`, c.with)
			if strings.Contains(c.with, "levels") {
				text = strings.Replace(text, `"levels": [`, `"storeys": [`, 1)
			}
			_, err := Decode([]byte(text))
			var e *LoadError
			require.ErrorAs(t, err, &e)
			assert.NotEmpty(t, e.Problems)
			last := e.Problems[len(e.Problems)-1]
			if e.More == 0 {
				assert.Equal(t, c.path, last.Path)
				assert.Contains(t, last.Found, c.found)
			}
		})
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
