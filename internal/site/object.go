package site

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/go-json-experiment/json/jsontext"
)

// object is what the loader remembers of one object while it reads it.
type object struct {
	schema *schema
	seen   uint64            // members of the schema that were there
	texts  map[string]string // those that name the object or decide a choice
}

// saw notes a member with the text of its value.
func (o *object) saw(name string, value []byte) {
	o.seen |= 1 << o.schema.place[name]
	if o.schema.telling[name] {
		if o.texts == nil {
			o.texts = make(map[string]string, len(o.schema.telling))
		}
		o.texts[name] = plain(value)
	}
}

func (o *object) has(name string) bool {
	at, known := o.schema.place[name]
	return known && o.seen&(1<<at) != 0
}

// key tells the object apart from the other elements of its list. It is empty
// where nothing does.
func (o *object) key() string {
	all := make([]string, len(o.schema.Key))
	for i, name := range o.schema.Key {
		all[i] = o.texts[name]
	}
	return strings.TrimRight(strings.Join(all, ","), ",")
}

// judge adds what is missing and what must not be there.
func (o *object) judge(p *problems, at *place) {
	for _, name := range o.schema.Required {
		if !o.has(name) {
			p.add(&place{parent: at, name: name}, "nothing", o.schema.Members[name].limit)
		}
	}
	for i := range o.schema.Choices {
		c := &o.schema.Choices[i]
		if !o.decides(&c.If) {
			continue
		}
		out, holds := c.Then, o.meets(&c.If)
		if !holds {
			out = c.Else
		}
		for _, name := range out.Required {
			if !o.has(name) {
				p.add(&place{parent: at, name: name}, "nothing", "given where "+c.If.inWords(holds))
			}
		}
		for _, name := range slices.Sorted(maps.Keys(out.Members)) {
			if o.has(name) {
				p.add(&place{parent: at, name: name}, "a value", "left out where "+c.If.inWords(holds))
			}
		}
	}
}

// decides reports whether all that a condition looks at is there. Where it is
// not, it is missed already.
func (o *object) decides(c *condition) bool {
	for name := range c.Members {
		if !o.has(name) {
			return false
		}
	}
	return true
}

func (o *object) meets(c *condition) bool {
	for _, name := range c.Required {
		if !o.has(name) {
			return false
		}
	}
	for name, want := range c.Members {
		if o.texts[name] != want.Const {
			return false
		}
	}
	return true
}

func (c *condition) inWords(holds bool) string {
	is, there := "is", "is given"
	if !holds {
		is, there = "is not", "is not given"
	}
	var all []string
	for _, name := range c.Required {
		all = append(all, name+" "+there)
	}
	for _, name := range slices.Sorted(maps.Keys(c.Members)) {
		all = append(all, fmt.Sprintf("%s %s %q", name, is, c.Members[name].Const))
	}
	return strings.Join(all, " and ")
}

// plain returns a value's text without what stands between it and the value
// before, and without the quotes and escapes of a string.
func plain(value []byte) string {
	text := strings.TrimLeft(string(value), ":, \t\r\n")
	if !strings.HasPrefix(text, `"`) {
		return text
	}
	unquoted, err := jsontext.AppendUnquote(nil, text)
	if err != nil {
		return text
	}
	return string(unquoted)
}
