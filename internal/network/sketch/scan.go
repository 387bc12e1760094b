package sketch

import (
	"fmt"
	"strings"
)

// scanner cuts one chain into names, words and pipes.
type scanner struct{ rest string }

// more reports whether anything but space is left.
func (s *scanner) more() bool {
	s.rest = strings.TrimSpace(s.rest)
	return s.rest != ""
}

// node reads a name and the words in parentheses after it.
func (s *scanner) node() (name string, words []string, err error) {
	if !s.more() {
		return "", nil, fmt.Errorf("a node is missing at the end")
	}
	end := strings.IndexFunc(s.rest, func(r rune) bool { return !isNameRune(r) })
	if end < 0 {
		end = len(s.rest)
	}
	if end == 0 {
		return "", nil, fmt.Errorf("a node is missing before %q", s.rest)
	}
	name, s.rest = s.rest[:end], s.rest[end:]
	if !strings.HasPrefix(s.rest, "(") {
		return name, nil, nil
	}
	inside, after, ok := strings.Cut(s.rest[1:], ")")
	if !ok {
		return "", nil, fmt.Errorf("node %s: no closing parenthesis", name)
	}
	s.rest = after
	return name, strings.Fields(inside), nil
}

// link reads a pipe: dash or tilde, fields, dash or tilde.
func (s *scanner) link() (branchBefore bool, fields []string, branchAfter bool, err error) {
	s.more()
	if strings.IndexAny(s.rest, "-~") != 0 {
		return false, nil, false, fmt.Errorf("a pipe must start with - or ~, not %q", s.rest)
	}
	branchBefore = s.rest[0] == '~'
	end := strings.IndexAny(s.rest[1:], "-~") + 1
	if end == 0 {
		return false, nil, false, fmt.Errorf("pipe %q must end with - or ~", s.rest)
	}
	branchAfter = s.rest[end] == '~'
	for _, f := range strings.Split(s.rest[1:end], "/") {
		fields = append(fields, strings.TrimSpace(f))
	}
	s.rest = s.rest[end+1:]
	return branchBefore, fields, branchAfter, nil
}

func isNameRune(r rune) bool {
	return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '_' || r == '.'
}
