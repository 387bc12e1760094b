package site

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/go-json-experiment/json"

	"linemap/assets"
)

const schemaFile = "linemap.schema.json"

// Schema returns the published JSON Schema (draft 2020-12) of the site file.
func Schema() ([]byte, error) { return assets.FS.ReadFile(schemaFile) }

// schema is the published schema as the loader walks it: the one place that
// says which members there are, of what type and within what range. It knows
// the keywords that the published file uses and refuses a file with others.
type schema struct {
	Ref       string             `json:"$ref"`
	Type      string             `json:"type"`
	Enum      []any              `json:"enum"`
	Const     any                `json:"const"`
	Min       *float64           `json:"minimum"`
	Max       *float64           `json:"maximum"`
	Above     *float64           `json:"exclusiveMinimum"`
	MinLength int                `json:"minLength"`
	MaxLength *int               `json:"maxLength"`
	Pattern   string             `json:"pattern"`
	Encoding  string             `json:"contentEncoding"`
	MinItems  int                `json:"minItems"`
	MaxItems  *int               `json:"maxItems"`
	Unique    bool               `json:"uniqueItems"`
	Items     *schema            `json:"items"`
	Required  []string           `json:"required"`
	Members   map[string]*schema `json:"properties"`
	Choices   []choice           `json:"allOf"`

	// Annotations: the unit of a number, the members that tell the elements of
	// a list apart, a pattern in words, and what a reader is told.
	Unit        string             `json:"x-unit"`
	Key         []string           `json:"x-key"`
	Form        string             `json:"x-form"`
	Description string             `json:"description"`
	Title       string             `json:"title"`
	Dialect     string             `json:"$schema"`
	ID          string             `json:"$id"`
	Defs        map[string]*schema `json:"$defs"`

	resolved bool
	pattern  *regexp.Regexp
	limit    string          // what a value must be, in words
	place    map[string]int  // place of each member in a set of members seen
	telling  map[string]bool // members whose text is a key or decides a choice
}

// choice makes members required or forbidden by what else an object holds.
type choice struct {
	If   condition `json:"if"`
	Then outcome   `json:"then"`
	Else outcome   `json:"else"`
}

// condition holds where every member of Required is there and every member of
// Members has its one value.
type condition struct {
	Required []string `json:"required"`
	Members  map[string]struct {
		Const string `json:"const"`
	} `json:"properties"`
}

// outcome lists members that must be there and, with the schema false, members
// that must not.
type outcome struct {
	Required []string        `json:"required"`
	Members  map[string]bool `json:"properties"`
}

// siteSchema is the schema of a whole document.
var siteSchema = sync.OnceValues(func() (*schema, error) {
	data, err := Schema()
	if err != nil {
		return nil, err
	}
	root, err := parseSchema(data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", schemaFile, err)
	}
	return root, nil
})

func parseSchema(data []byte) (*schema, error) {
	root := new(schema)
	if err := json.Unmarshal(data, root, json.RejectUnknownMembers(true)); err != nil {
		return nil, err
	}
	return root.resolve(root.Defs)
}

// resolve follows references, compiles patterns and puts limits into words,
// and returns the schema to use in place of s.
func (s *schema) resolve(defs map[string]*schema) (*schema, error) {
	if s.Ref != "" {
		target := defs[strings.TrimPrefix(s.Ref, "#/$defs/")]
		if target == nil {
			return nil, fmt.Errorf("$ref %q leads nowhere", s.Ref)
		}
		return target.resolve(defs)
	}
	if s.resolved {
		return s, nil
	}
	s.resolved = true
	if s.Encoding != "" && s.Encoding != base64Encoding {
		return nil, fmt.Errorf("contentEncoding %q, only %s is known", s.Encoding, base64Encoding)
	}
	var err error
	if s.Pattern != "" {
		if s.pattern, err = regexp.Compile(s.Pattern); err != nil {
			return nil, err
		}
	}
	s.limit = s.inWords()
	if s.Items != nil {
		if s.Items, err = s.Items.resolve(defs); err != nil {
			return nil, fmt.Errorf("items: %w", err)
		}
	}
	s.place = make(map[string]int, len(s.Members))
	for i, name := range slices.Sorted(maps.Keys(s.Members)) {
		if s.Members[name], err = s.Members[name].resolve(defs); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		s.place[name] = i
	}
	s.telling = map[string]bool{}
	for _, name := range s.Key {
		s.telling[name] = true
	}
	for i := range s.Choices {
		for name := range s.Choices[i].If.Members {
			s.telling[name] = true
		}
	}
	if len(s.Members) > maxMembers {
		return nil, fmt.Errorf("%d members, at most %d can be told apart", len(s.Members), maxMembers)
	}
	return s, nil
}

// maxMembers is how many members of one object a set of bits tells apart.
const maxMembers = 64
