package edit

import (
	"fmt"
	"strconv"
	"strings"

	"linemap/internal/network"
)

// nextLabel is the first label of some letters and a number that no node has:
// CO-3.
func (d *Draft) nextLabel(letters string) string {
	return firstFree(letters+"-%d", 1, labels(d.site.Network.Nodes, func(n *network.Node) string { return n.Label }))
}

// nextOf is the label of another pipe of the same name, which the crew must be
// able to tell from it: "WC-1 lateral (2)". A pipe without a label gets none.
func (d *Draft) nextOf(label string) string {
	if label == "" {
		return ""
	}
	escaped := strings.ReplaceAll(stem(label), "%", "%%")
	next := firstFree(escaped+" (%d)", 2, labels(d.site.Network.Pipes, func(p *network.Pipe) string { return p.Label }))
	if len(next) > 200 { // the longest label that a file takes, in characters
		return ""
	}
	return next
}

// stem is a label without the number in parentheses that tells it from others.
func stem(label string) string {
	before, after, ok := strings.Cut(label, " (")
	if n, err := strconv.Atoi(strings.TrimSuffix(after, ")")); !ok || err != nil || n < 2 || fmt.Sprintf("%s (%d)", before, n) != label {
		return label
	}
	return before
}

func firstFree(form string, from int, taken map[string]bool) string {
	for i := from; ; i++ {
		if label := fmt.Sprintf(form, i); !taken[label] {
			return label
		}
	}
}

func labels[T any](list []T, label func(*T) string) map[string]bool {
	taken := map[string]bool{}
	for i := range list {
		if l := label(&list[i]); l != "" {
			taken[l] = true
		}
	}
	return taken
}
