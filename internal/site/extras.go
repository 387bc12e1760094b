package site

import (
	"bytes"

	"github.com/go-json-experiment/json/jsontext"
)

// extras are the members of a document that this program does not know, kept
// so that a newer program's figures survive a round trip. They hang on the
// keys of the elements around them: those of a deleted pipe are not written,
// and come back when the deletion is undone. A nil extras holds nothing. It is
// never changed once a document is loaded, so copies share it.
type extras struct {
	members []extra
	below   map[string]*extras // by member name, or by an element's key
}

type extra struct {
	name  string
	value jsontext.Value // on one line
}

// with returns x with one more unknown member.
func (x *extras) with(name string, value jsontext.Value) *extras {
	if x == nil {
		x = new(extras)
	}
	x.members = append(x.members, extra{name, value})
	return x
}

// under returns x with the unknown members found below a member or an element.
func (x *extras) under(name string, found *extras) *extras {
	if found == nil {
		return x
	}
	if x == nil {
		x = new(extras)
	}
	if x.below == nil {
		x.below = map[string]*extras{}
	}
	x.below[name] = found
	return x
}

// merge puts the unknown members back into a value of s that was written on
// one line.
func (x *extras) merge(value jsontext.Value, s *schema) (jsontext.Value, error) {
	switch {
	case x == nil:
		return value, nil
	case value.Kind() == jsontext.KindBeginObject:
		return x.mergeObject(value, s)
	case value.Kind() == jsontext.KindBeginArray && s.Items != nil:
		return x.mergeArray(value, s)
	}
	return value, nil
}

func (x *extras) mergeObject(value jsontext.Value, s *schema) (jsontext.Value, error) {
	dec := jsontext.NewDecoder(bytes.NewBuffer(value))
	if _, err := dec.ReadToken(); err != nil {
		return nil, err
	}
	var out list
	written := map[string]bool{}
	for dec.PeekKind() == jsontext.KindString {
		name, err := dec.ReadToken()
		if err != nil {
			return nil, err
		}
		key := name.String()
		written[key] = true
		below, err := dec.ReadValue()
		if err != nil {
			return nil, err
		}
		if member := s.Members[key]; member != nil {
			if below, err = x.below[key].merge(below, member); err != nil {
				return nil, err
			}
		}
		out.member(key, below)
	}
	for _, key := range sortedKeys(x.below) {
		// An object that may be empty is left out where it is, but not where it
		// holds something unknown.
		member := s.Members[key]
		if written[key] || member == nil || member.Type != "object" || len(member.Required) > 0 {
			continue
		}
		below, err := x.below[key].merge(jsontext.Value("{}"), member)
		if err != nil {
			return nil, err
		}
		out.member(key, below)
	}
	for _, m := range x.members {
		out.member(m.name, m.value)
	}
	return out.in('{', '}'), nil
}

func (x *extras) mergeArray(value jsontext.Value, s *schema) (jsontext.Value, error) {
	dec := jsontext.NewDecoder(bytes.NewBuffer(value))
	if _, err := dec.ReadToken(); err != nil {
		return nil, err
	}
	var out list
	for n := 0; dec.PeekKind() != jsontext.KindEndArray; n++ {
		raw, err := dec.ReadValue()
		if err != nil {
			return nil, err
		}
		at := &place{index: n, key: keyOf(raw, s.Items)}
		if raw, err = x.below[at.label()].merge(raw, s.Items); err != nil {
			return nil, err
		}
		out.element(raw)
	}
	return out.in('[', ']'), nil
}

// keyOf returns the key of an element that was written.
func keyOf(raw jsontext.Value, s *schema) string {
	o := object{schema: s}
	dec := jsontext.NewDecoder(bytes.NewBuffer(raw))
	if tok, err := dec.ReadToken(); err != nil || tok.Kind() != jsontext.KindBeginObject {
		return ""
	}
	for dec.PeekKind() == jsontext.KindString {
		name, err := dec.ReadToken()
		if err != nil {
			return ""
		}
		key := name.String()
		value, err := dec.ReadValue()
		if err != nil {
			return ""
		}
		if s.Members[key] != nil {
			o.saw(key, value)
		}
	}
	return o.key()
}

// list writes the members of an object or the elements of a list on one line.
type list struct{ text []byte }

func (l *list) element(value jsontext.Value) {
	if len(l.text) > 0 {
		l.text = append(l.text, ", "...)
	}
	l.text = append(l.text, value...)
}

func (l *list) member(name string, value jsontext.Value) {
	quoted, _ := jsontext.AppendQuote(nil, name) // a name that was read is valid UTF-8
	l.element(append(append(quoted, ": "...), value...))
}

func (l *list) in(open, end byte) jsontext.Value {
	return append(append([]byte{open}, l.text...), end)
}
