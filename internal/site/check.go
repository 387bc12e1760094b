package site

import (
	"bytes"
	"fmt"

	"github.com/go-json-experiment/json/jsontext"
)

// checker reads a document once against the schema. It collects what breaks
// the schema and sets aside the members that the schema does not know.
type checker struct {
	problems
	data []byte
	dec  *jsontext.Decoder
	// passed counts the values that the schema has no use for.
	passed int
	// broken says that nothing more is read: the text is no JSON from here on,
	// or there is too much of something.
	broken bool
}

// check reports what of a text breaks the schema, and returns the members
// that the schema does not know.
func check(data []byte, s *schema) (*extras, problems) {
	c := &checker{data: data, dec: jsontext.NewDecoder(bytes.NewBuffer(data))}
	kept := c.value(s, nil)
	if !c.broken {
		if at := c.dec.InputOffset(); len(bytes.TrimSpace(data[at:])) > 0 {
			c.add(locate(data, int(at), nil), "more text after the document", "its end")
		}
	}
	return kept, c.problems
}

// value reads the next value, which stands at a place, and returns the unknown
// members in it.
func (c *checker) value(s *schema, at *place) *extras {
	kind := c.dec.PeekKind()
	switch {
	case kind == jsontext.KindInvalid:
		_, err := c.dec.ReadToken()
		c.stop(err, at)
	case s.Type == "object" && kind == jsontext.KindBeginObject:
		return c.object(s, at)
	case s.Type == "array" && kind == jsontext.KindBeginArray:
		return c.array(s, at)
	case kind == jsontext.KindBeginObject || kind == jsontext.KindBeginArray:
		c.add(at, describe(kind), s.limit)
		c.pass(at)
	default:
		c.scalar(s, at)
	}
	return nil
}

func (c *checker) object(s *schema, at *place) *extras {
	if _, ok := c.token(at); !ok {
		return nil
	}
	var kept *extras
	o := object{schema: s}
	if at != nil && at.name == "" {
		defer func() { at.key = o.key() }()
	}
	for {
		tok, ok := c.token(at)
		if !ok {
			return nil
		}
		if tok.Kind() == jsontext.KindEndObject {
			break
		}
		name := tok.String()
		member := s.Members[name]
		if member == nil {
			raw, ok := c.keep(&place{parent: at, name: name})
			if !ok {
				return nil
			}
			kept = kept.with(name, raw)
			continue
		}
		below := &place{parent: at, name: name}
		start := c.dec.InputOffset()
		kept = kept.under(name, c.value(member, below))
		if c.broken {
			return nil
		}
		o.saw(name, c.data[start:c.dec.InputOffset()])
	}
	o.judge(&c.problems, at)
	return kept
}

func (c *checker) array(s *schema, at *place) *extras {
	if _, ok := c.token(at); !ok {
		return nil
	}
	var kept *extras
	seen := map[string]bool{}
	n := 0
	for ; c.dec.PeekKind() != jsontext.KindEndArray; n++ {
		below := &place{parent: at, index: n}
		if s.MaxItems != nil && n >= *s.MaxItems {
			if !c.pass(below) {
				c.add(at, fmt.Sprintf("a list of more than %d", n), s.limit)
				return nil
			}
			continue
		}
		start := c.dec.InputOffset()
		in := c.value(s.Items, below)
		if c.broken {
			return nil
		}
		kept = kept.under(below.label(), in)
		if s.Unique {
			text := plain(c.data[start:c.dec.InputOffset()])
			if seen[text] {
				c.add(below, quote(text)+" a second time", s.limit)
			}
			seen[text] = true
		}
	}
	if _, ok := c.token(at); !ok {
		return nil
	}
	if n < s.MinItems || s.MaxItems != nil && n > *s.MaxItems {
		c.add(at, fmt.Sprintf("a list of %d", n), s.limit)
	}
	return kept
}

func (c *checker) scalar(s *schema, at *place) {
	tok, ok := c.token(at)
	if !ok {
		return
	}
	switch tok.Kind() {
	case jsontext.KindString:
		text := tok.String()
		if !s.takesText(text) {
			c.add(at, quote(text), s.limit)
		} else if n := len(base64Part(text)); s.Encoding != "" && n < len(text) {
			c.add(at, fmt.Sprintf("%s, wrong from character %d on", quote(text), n+1), s.limit)
		}
	case jsontext.KindNumber:
		if !s.takesNumber(tok) {
			c.add(at, cut(tok.String())+withUnit(s.Unit), s.limit)
		}
	case jsontext.KindTrue, jsontext.KindFalse:
		if s.Type != "boolean" {
			c.add(at, tok.String(), s.limit)
		}
	default:
		c.add(at, "null", s.limit)
	}
}
