package site

import (
	"slices"
	"strconv"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

func (s *schema) takesText(text string) bool {
	if s.Enum != nil {
		return slices.Contains(s.Enum, any(text))
	}
	if s.Type != "string" {
		return false
	}
	n := utf8.RuneCountInString(text)
	return n >= s.MinLength && (s.MaxLength == nil || n <= *s.MaxLength) &&
		(s.pattern == nil || s.pattern.MatchString(text))
}

func (s *schema) takesNumber(tok jsontext.Token) bool {
	v, err := tok.Float()
	switch {
	case err != nil:
		return false
	case s.Const != nil:
		return s.Const == v
	case s.Enum != nil:
		return slices.Contains(s.Enum, any(v))
	case s.Type == "integer":
		if _, err := strconv.Atoi(tok.String()); err != nil {
			return false
		}
	case s.Type != "number":
		return false
	}
	return (s.Min == nil || v >= *s.Min) && (s.Max == nil || v <= *s.Max) && (s.Above == nil || v > *s.Above)
}
