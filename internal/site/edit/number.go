package edit

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// numbering gives numbered labels, such as CO-1 or Riser (2), their next free
// number where they are taken. Others may stand twice.
type numbering struct {
	taken map[string]bool
	last  map[string]int // the number given last, by what stands before it
}

func newNumbering[T any](list []T, label func(*T) string) *numbering {
	return &numbering{taken: labels(list, label), last: map[string]int{}}
}

// next is a label for the copy of something with a label, and takes it.
func (b *numbering) next(label string) string {
	if label == "" || !b.taken[label] {
		b.taken[label] = true
		return label
	}
	head, digits, tail := number(label)
	n, err := strconv.Atoi(digits)
	if err != nil {
		return label
	}
	n = max(n, b.last[head+tail])
	for {
		n++
		next := fmt.Sprintf("%s%0*d%s", head, len(digits), n, tail)
		if utf8.RuneCountInString(next) > longestLabel {
			return label
		}
		if !b.taken[next] {
			b.taken[next], b.last[head+tail] = true, n
			return next
		}
	}
}

// longestLabel is the longest label that a file takes, in characters.
const longestLabel = 200

// number takes a label apart at the number that it ends in, of a few digits, in
// parentheses or not. There may be none.
func number(label string) (head, digits, tail string) {
	head, closed := strings.CutSuffix(label, ")")
	if closed {
		tail = ")"
	}
	before := strings.TrimRight(head, "0123456789")
	const most = 9 // digits; longer ones count nothing
	if len(head)-len(before) > most || closed && !strings.HasSuffix(before, "(") {
		return label, "", ""
	}
	return before, head[len(before):], tail
}
