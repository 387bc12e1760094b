package site

import (
	"fmt"
	"strings"
)

// inWords says what a value of s must be.
func (s *schema) inWords() string {
	switch {
	case s.Const != nil:
		return fmt.Sprint(s.Const)
	case s.Enum != nil:
		all := make([]string, len(s.Enum))
		for i, v := range s.Enum {
			all[i] = fmt.Sprint(v)
			if text, ok := v.(string); ok {
				all[i] = quote(text)
			}
		}
		return "one of " + strings.Join(all, ", ") + withUnit(s.Unit)
	case s.Type == "object":
		return "an object {}"
	case s.Type == "array":
		return "a list []" + s.countInWords()
	case s.Type == "string":
		return "a text" + s.lengthInWords()
	case s.Type == "boolean":
		return "true or false"
	case s.Type == "integer":
		return "a whole number" + s.rangeInWords()
	}
	return "a number" + s.rangeInWords()
}

func (s *schema) rangeInWords() string {
	switch {
	case s.Above != nil && s.Max != nil:
		return fmt.Sprintf(" above %v and at most %v%s", *s.Above, *s.Max, withUnit(s.Unit))
	case s.Min != nil && s.Max != nil:
		return fmt.Sprintf(" from %v to %v%s", *s.Min, *s.Max, withUnit(s.Unit))
	}
	return withUnit(s.Unit)
}

func (s *schema) countInWords() string {
	words := ""
	switch {
	case s.MinItems > 0 && s.MaxItems != nil:
		words = fmt.Sprintf(" of %d to %d", s.MinItems, *s.MaxItems)
	case s.MinItems > 0:
		words = fmt.Sprintf(" of at least %d", s.MinItems)
	case s.MaxItems != nil:
		words = fmt.Sprintf(" of at most %d", *s.MaxItems)
	}
	if s.Unique {
		words += ", each once"
	}
	return words
}

func (s *schema) lengthInWords() string {
	words := ""
	if s.Encoding != "" {
		words += " in " + s.Encoding + " (RFC 4648)"
	}
	if s.Form != "" {
		words += " of the form: " + s.Form
	}
	switch {
	case s.MinLength == 1:
		words += ", at least 1 character"
	case s.MinLength > 1:
		words += fmt.Sprintf(", at least %d characters", s.MinLength)
	}
	if s.MaxLength != nil {
		words += fmt.Sprintf(", at most %d characters", *s.MaxLength)
	}
	return words
}

func withUnit(u string) string {
	if u == "" {
		return ""
	}
	return " " + u
}
