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
	in           *place // what was being read
}

func (p position) String() string {
	if p.in == nil {
		return fmt.Sprintf("line %d, column %d", p.line, p.column)
	}
	return fmt.Sprintf("line %d, column %d, in %s", p.line, p.column, p.in)
}

// locate turns an offset into a line and a column, both from 1; a column is a
// byte.
func locate(data []byte, offset int, in *place) position {
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
	if tooDeep(c.data[c.dec.InputOffset():]) {
		c.add(at, "objects and lists too deep in each other", fmt.Sprintf("at most %d deep", maxDepth))
		c.broken = true
		return nil, false
	}
	raw, err := c.dec.ReadValue()
	if err != nil {
		c.stop(err, at)
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
		c.add(locate(c.data, len(c.data), at), "the end of the file", "the rest of the document")
	case errors.As(err, &broken):
		c.add(locate(c.data, int(broken.ByteOffset), at), broken.Err.Error(), "valid JSON")
	default:
		c.add(at, err.Error(), "valid JSON")
	}
}

// maxDepth is how deep objects and lists may nest in a value that the schema
// does not know.
const maxDepth = 64

// tooDeep reports whether the next value in a text nests deeper than that. It
// looks no further than it must, so that no text of brackets costs time.
func tooDeep(text []byte) bool {
	depth, quoted := 0, false
	text = bytes.TrimLeft(text, ":, \t\r\n")
	for i := 0; i < len(text); i++ {
		switch b := text[i]; {
		case quoted && b == '\\':
			i++
		case b == '"':
			quoted = !quoted
		case quoted:
		case b == '{' || b == '[':
			if depth++; depth > maxDepth {
				return true
			}
		case b == '}' || b == ']':
			if depth--; depth <= 0 {
				return false
			}
		case b == ',' && depth == 0:
			return false
		}
	}
	return false
}
