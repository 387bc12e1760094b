package site

import (
	"fmt"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// Encode writes a document: the same bytes for the same site, ending with a
// newline, members in the order of the types, everything else in the site's
// order, and the unknown members of the file it was loaded from back in their
// places. It errs only where a number is not finite or a text is not UTF-8.
func Encode(s *Site) ([]byte, error) {
	out := *s
	out.Version = Version
	line, err := json.Marshal(&out, encoding)
	if err != nil {
		return nil, fmt.Errorf("write site: %w", err)
	}
	if s.extras != nil {
		root, err := siteSchema()
		if err != nil {
			return nil, err
		}
		merged, err := s.extras.merge(jsontext.Value(line), root)
		if err != nil {
			return nil, fmt.Errorf("write site: %w", err)
		}
		line = merged
	}
	return layout(line), nil
}

// EncodeValue writes any value, such as a plan, in the units and the layout of
// a document: metres, degrees, kilopascals, litres per minute, litres,
// kilograms, metres per minute, newtons, decimal minutes. The same value gives
// the same bytes.
func EncodeValue(v any) ([]byte, error) {
	line, err := json.Marshal(v, encoding)
	if err != nil {
		return nil, err
	}
	return layout(line), nil
}
