package site

import (
	"bytes"
	"errors"
	"testing"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestMigrate brings documents of older versions up through made-up steps.
func TestMigrate(t *testing.T) {
	replace := func(old, with string) migration {
		return func(v jsontext.Value) (jsontext.Value, error) {
			return bytes.Replace(v, []byte(old), []byte(with), 1), nil
		}
	}
	steps := []migration{replace(`1, "a"`, `2, "b"`), replace(`2, "b"`, `3, "c"`)}
	for _, c := range []struct{ name, text, want string }{
		{"oldest", `{"linemap": 1, "a": 0}`, `{"linemap": 3, "c": 0}`},
		{"one behind", `{"linemap": 2, "b": 0}`, `{"linemap": 3, "c": 0}`},
		{"newest", `{"linemap": 3, "a": 0}`, `{"linemap": 3, "a": 0}`},
		{"version last", `{"x": {"linemap": 9}, "linemap": 2, "b": 0}`, `{"x": {"linemap": 9}, "linemap": 3, "c": 0}`},
		{"no version", `{"a": 0}`, `{"a": 0}`},
		{"version of text", `{"linemap": "1", "a": 0}`, `{"linemap": "1", "a": 0}`},
		{"no document", `[1, "a"]`, `[1, "a"]`},
		{"no JSON", `{"x": }`, `{"x": }`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := migrate([]byte(c.text), steps)
			require.NoError(t, err)
			assert.Equal(t, c.want, string(got))
		})
	}

	_, err := migrate([]byte(`{"linemap": 4}`), steps)
	assert.EqualError(t, err, "linemap: found version 4, written by a newer linemap, must be at most 3 for this one")

	failing := []migration{func(jsontext.Value) (jsontext.Value, error) { return nil, errors.New("lost") }}
	_, err = migrate([]byte(`{"linemap": 1}`), failing)
	assert.EqualError(t, err, "bring version 1 up to 2: lost")
}

func TestMigrationsLeadToTheVersion(t *testing.T) {
	assert.Equal(t, Version, len(migrations)+1)
	root, err := siteSchema()
	require.NoError(t, err)
	assert.InDelta(t, Version, root.Members["linemap"].Const, 0)
}
