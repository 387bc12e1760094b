package site

import (
	"strings"
	"testing"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLayout(t *testing.T) {
	wide := strings.Repeat("x", lineWidth)
	for _, c := range []struct{ name, line, want string }{
		{"number", `7`, "7\n"},
		{"short", `{"x": 1, "y": [2, {}]}`, `{"x": 1, "y": [2, {}]}` + "\n"},
		{"empty", `[]`, "[]\n"},
		{
			"wide member", `{"a": "` + wide + `", "b": {"x": 1, "y": 2}}`,
			"{\n  \"a\": \"" + wide + "\",\n  \"b\": {\"x\": 1, \"y\": 2}\n}\n",
		},
		{
			"wide element", `{"a": [{"x": 1}, {"y": "` + wide + `"}, []]}`,
			"{\n  \"a\": [\n    {\"x\": 1},\n    {\n      \"y\": \"" + wide + "\"\n    },\n    []\n  ]\n}\n",
		},
		{
			"brackets, commas and quotes in a text", `["` + wide + `", "a, {\"[\\", {"}]": ","}]`,
			"[\n  \"" + wide + "\",\n  \"a, {\\\"[\\\\\",\n  {\"}]\": \",\"}\n]\n",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := layout([]byte(c.line))
			assert.Equal(t, c.want, string(got))
			again := jsontext.Value(got)
			require.NoError(t, again.Format(jsontext.SpaceAfterColon(true), jsontext.SpaceAfterComma(true)))
			assert.Equal(t, c.line, string(again), "only white space was added")
		})
	}
}

// TestLayoutKeepsToTheWidth asks of every line of a document that it fits, and
// that an object that fits stands on one line.
func TestLayoutKeepsToTheWidth(t *testing.T) {
	data, err := Encode(wholeSite(t))
	require.NoError(t, err)
	for line := range strings.Lines(string(data)) {
		assert.LessOrEqual(t, len(line), lineWidth+1, line)
	}
	assert.Contains(t, string(data), `      {"id": "f1", "kind": "fixture", "at": {"x": 20, "y": 9}}`+"\n")
}
