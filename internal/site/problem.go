package site

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// Problem is one thing that keeps a document from being loaded.
type Problem struct {
	// Path leads to the place by ids: network.pipes[p12].size.
	Path string
	// Found is the value there, or what is the matter with it; Limit is what it
	// must be.
	Found string
	Limit string
}

// String says all of it on one line.
func (p Problem) String() string {
	path := p.Path
	if path == "" {
		path = "the document"
	}
	return fmt.Sprintf("%s: found %s, must be %s", path, p.Found, p.Limit)
}

// MaxProblems is the most problems that a [LoadError] lists.
const MaxProblems = 20

// LoadError says why a document was not loaded. Nothing of it was.
type LoadError struct {
	// Problems are the first [MaxProblems] in the order of the document, at
	// least one; More counts the others.
	Problems []Problem
	More     int
}

// Error names the first three problems and counts the others, on one line.
func (e *LoadError) Error() string {
	const shown = 3
	var all []string
	for _, p := range e.Problems[:min(shown, len(e.Problems))] {
		all = append(all, p.String())
	}
	if rest := len(e.Problems) + e.More - len(all); rest > 0 {
		all = append(all, fmt.Sprintf("and %d more", rest))
	}
	return strings.Join(all, "; ")
}

// problems collects what is wrong with a document.
type problems struct {
	list []pending
	more int
}

// pending is a problem whose path is written at the end, when the ids of all
// elements that it leads through are known.
type pending struct {
	at           fmt.Stringer
	found, limit string
}

func (p *problems) add(at fmt.Stringer, found, limit string) {
	if len(p.list) == MaxProblems {
		p.more++
		return
	}
	p.list = append(p.list, pending{at, found, limit})
}

// err returns nil where nothing is wrong.
func (p *problems) err() error {
	if len(p.list) == 0 {
		return nil
	}
	e := &LoadError{More: p.more}
	for _, w := range p.list {
		e.Problems = append(e.Problems, Problem{Path: w.at.String(), Found: w.found, Limit: w.limit})
	}
	return e
}

// quote quotes a text for a message and cuts it where it is long.
func quote(text string) string {
	const long = 60
	if utf8.RuneCountInString(text) <= long {
		return strconv.Quote(text)
	}
	return fmt.Sprintf("%s and so on, %d characters", strconv.Quote(string([]rune(text)[:long])), utf8.RuneCountInString(text))
}

// cut shortens the text of a number for a message.
func cut(number string) string {
	const long = 40
	if len(number) <= long {
		return number
	}
	return fmt.Sprintf("%s and so on, %d digits", number[:long], len(number))
}

// describe names an object or a list.
func describe(kind jsontext.Kind) string {
	if kind == jsontext.KindBeginObject {
		return "an object"
	}
	return "a list"
}

// place is a place in a document while it is read: a member of an object or
// an element of a list.
type place struct {
	parent *place
	name   string // of a member
	index  int    // of an element
	key    string // of an element, as soon as it is known
}

// String returns the path of p by ids.
func (p *place) String() string {
	if p == nil {
		return ""
	}
	above := p.parent.String()
	switch {
	case p.name == "":
		return fmt.Sprintf("%s[%s]", above, p.label())
	case above == "":
		return p.name
	}
	return above + "." + p.name
}

func (p *place) label() string {
	if p.key == "" {
		return strconv.Itoa(p.index)
	}
	return p.key
}
