package site

import (
	"bytes"
	"errors"
	"fmt"
	"os"

	"github.com/go-json-experiment/json"
)

// MaxBytes is the largest document that is loaded, in bytes.
const MaxBytes = 64 << 20

// byteOrderMark is what some editors put before a text in UTF-8.
var byteOrderMark = []byte("\xef\xbb\xbf")

// Decode reads a document. It loads all of it or none: a document that breaks
// the schema, names what is not there or is no JSON gives a [*LoadError] that
// lists the places, the values found and the limits.
func Decode(data []byte) (*Site, error) {
	if len(data) > MaxBytes {
		return nil, &LoadError{Problems: []Problem{{
			Found: fmt.Sprintf("%d bytes", len(data)), Limit: fmt.Sprintf("at most %d bytes", MaxBytes),
		}}}
	}
	root, err := siteSchema()
	if err != nil {
		return nil, err
	}
	data, err = migrate(bytes.TrimPrefix(data, byteOrderMark), migrations)
	if err != nil {
		return nil, err
	}
	s := new(Site)
	if s.extras, err = decode(data, root, s); err != nil {
		return nil, err
	}
	if err := s.checkReferences(); err != nil {
		return nil, err
	}
	return s, nil
}

// decode reads a value that the schema describes into v, and returns the
// members that the schema does not know.
func decode(data []byte, s *schema, v any) (*extras, error) {
	kept, found := check(data, s)
	if err := found.err(); err != nil {
		return nil, err
	}
	if err := json.Unmarshal(data, v, decoding); err != nil {
		// The schema let through what the types do not take.
		var wrong *json.SemanticError
		if errors.As(err, &wrong) {
			return nil, &LoadError{Problems: []Problem{{
				Path: string(wrong.JSONPointer), Found: string(wrong.JSONValue), Limit: fmt.Sprint("a ", wrong.GoType),
			}}}
		}
		return nil, err
	}
	return kept, nil
}

// Open reads the document in a file.
func Open(path string) (*Site, error) {
	if info, err := os.Stat(path); err == nil && info.Size() > MaxBytes {
		return nil, fmt.Errorf("open %s: %d bytes, at most %d are read", path, info.Size(), MaxBytes)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	s, err := Decode(data)
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", path, err)
	}
	return s, nil
}
