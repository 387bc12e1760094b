package site

import (
	"bytes"
	"fmt"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// migration rewrites a document of one version into the next.
type migration func(jsontext.Value) (jsontext.Value, error)

// migrations holds at index i the way from version i+1 to version i+2. A
// change of the format that old documents do not fit adds one, and raises
// [Version] by one.
var migrations = []migration{}

// migrate brings a document up to the version that the migrations lead to. A
// document whose version it cannot make out is returned as it is: the check
// against the schema says what is wrong with it.
func migrate(data []byte, steps []migration) ([]byte, error) {
	version, known := versionOf(data)
	newest := len(steps) + 1
	if !known || version < 1 {
		return data, nil
	}
	if version > newest {
		return nil, &LoadError{Problems: []Problem{{
			Path:  "linemap",
			Found: fmt.Sprintf("version %d, written by a newer linemap", version),
			Limit: fmt.Sprintf("at most %d for this one", newest),
		}}}
	}
	for ; version < newest; version++ {
		var err error
		if data, err = steps[version-1](data); err != nil {
			return nil, fmt.Errorf("bring version %d up to %d: %w", version, version+1, err)
		}
	}
	return data, nil
}

// versionOf reads the version of a document and as little else as it can.
func versionOf(data []byte) (int, bool) {
	dec := jsontext.NewDecoder(bytes.NewBuffer(data))
	if tok, err := dec.ReadToken(); err != nil || tok.Kind() != jsontext.KindBeginObject {
		return 0, false
	}
	for dec.PeekKind() == jsontext.KindString {
		name, err := dec.ReadToken()
		if err != nil {
			return 0, false
		}
		if name.String() != "linemap" {
			if deep, _ := weigh(data[dec.InputOffset():]); deep > maxDepth || dec.SkipValue() != nil {
				return 0, false
			}
			continue
		}
		var version int
		err = json.UnmarshalDecode(dec, &version)
		return version, err == nil
	}
	return 0, false
}
