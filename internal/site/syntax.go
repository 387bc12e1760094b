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

// pass reads over the next value, which the schema has no use for. It reports
// whether there is more to read.
func (c *checker) pass(at *place) bool {
	depth, values := weigh(c.data[c.dec.InputOffset():])
	c.passed += values
	switch {
	case depth > maxDepth:
		c.refuse(at, "objects and lists too deep in each other", fmt.Sprintf("at most %d deep", maxDepth))
	case c.passed > maxPassed:
		c.refuse(at, "too many values of no use", fmt.Sprintf("at most %d in the document", maxPassed))
	default:
		if err := c.dec.SkipValue(); err != nil {
			c.stop(err, at)
		}
	}
	return !c.broken
}

// keep reads over the next value and returns it on one line.
func (c *checker) keep(at *place) (jsontext.Value, bool) {
	start := c.dec.InputOffset()
	if !c.pass(at) {
		return nil, false
	}
	raw := jsontext.Value(bytes.TrimLeft(c.data[start:c.dec.InputOffset()], ":, \t\r\n")).Clone()
	if err := raw.Format(jsontext.SpaceAfterColon(true), jsontext.SpaceAfterComma(true)); err != nil {
		c.stop(err, at)
		return nil, false
	}
	return raw, true
}

// refuse notes what makes reading on pointless.
func (c *checker) refuse(at *place, found, limit string) {
	c.add(at, found, limit)
	c.broken = true
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

// Values that the schema has no use for may nest so deep, and there may be so
// many in one document. More would cost more time than a document is worth.
const (
	maxDepth  = 64
	maxPassed = 500_000
)

// weigh returns how deep the next value in a text nests and how many values
// there are in it. It stops where either is too much.
func weigh(text []byte) (deepest, values int) {
	depth, quoted := 0, false
	text = bytes.TrimLeft(text, ":, \t\r\n")
	values = 1
	for i := 0; i < len(text) && deepest <= maxDepth && values <= maxPassed; i++ {
		switch b := text[i]; {
		case quoted && b == '\\':
			i++
		case b == '"':
			quoted = !quoted
		case quoted:
		case b == '{' || b == '[':
			depth++
			deepest = max(deepest, depth)
		case b == '}' || b == ']':
			if depth--; depth <= 0 {
				return deepest, values
			}
		case b == ',':
			if depth == 0 {
				return deepest, values
			}
			values++
		}
	}
	return deepest, values
}
