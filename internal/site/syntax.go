package site

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"github.com/go-json-experiment/json/jsontext"
)

// position is a place in a text that is no JSON.
type position struct {
	line, column int
	in           string // path of what was being read
}

func (p position) String() string {
	if p.in == "" {
		return fmt.Sprintf("line %d, column %d", p.line, p.column)
	}
	return fmt.Sprintf("line %d, column %d, in %s", p.line, p.column, p.in)
}

// locate turns an offset into a line and a column, both from 1; a column is a
// byte.
func locate(data []byte, offset int, in string) position {
	before := data[:min(max(offset, 0), len(data))]
	return position{
		line:   1 + bytes.Count(before, []byte("\n")),
		column: len(before) - bytes.LastIndexByte(before, '\n'),
		in:     in,
	}
}

// token reads the next token.
func (c *checker) token(at *place) (jsontext.Token, bool) {
	tok, err := c.dec.ReadToken()
	if err != nil {
		c.stop(err, at)
		return jsontext.Token{}, false
	}
	return tok, true
}

// skip reads the next value whole and returns it on one line.
func (c *checker) skip(at *place) (jsontext.Value, bool) {
	raw, err := c.dec.ReadValue()
	if err != nil {
		c.stop(err, at)
		return nil, false
	}
	if nesting(raw) > maxDepth {
		c.add(at, "objects and lists too deep in each other", fmt.Sprintf("at most %d deep", maxDepth))
		return nil, false
	}
	raw = raw.Clone()
	if err := raw.Format(jsontext.SpaceAfterColon(true), jsontext.SpaceAfterComma(true)); err != nil {
		c.stop(err, at)
		return nil, false
	}
	return raw, true
}

// stop notes that the text is no JSON from here on.
func (c *checker) stop(err error, at *place) {
	if c.broken {
		return
	}
	c.broken = true
	var broken *jsontext.SyntacticError
	switch {
	case errors.Is(err, jsontext.ErrDuplicateName) && errors.As(err, &broken):
		c.add(&place{parent: at, name: broken.JSONPointer.LastToken()}, "the member a second time", "given once")
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		c.add(locate(c.data, len(c.data), at.String()), "the end of the file", "the rest of the document")
	case errors.As(err, &broken):
		c.add(locate(c.data, int(broken.ByteOffset), at.String()), broken.Err.Error(), "valid JSON")
	default:
		c.add(at, err.Error(), "valid JSON")
	}
}

// nesting returns how deep objects and lists nest in a valid value.
func nesting(raw jsontext.Value) int {
	deepest, depth, quoted := 0, 0, false
	for i := 0; i < len(raw); i++ {
		switch b := raw[i]; {
		case quoted && b == '\\':
			i++
		case b == '"':
			quoted = !quoted
		case quoted:
		case b == '{' || b == '[':
			depth++
			deepest = max(deepest, depth)
		case b == '}' || b == ']':
			depth--
		}
	}
	return deepest
}
