package edit_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/network"
	"linemap/internal/network/sketch"
	"linemap/internal/site"
	"linemap/internal/site/edit"
	"linemap/internal/unit"
)

// board is a site that is drawn on in a test, every edit held to its promises:
// see [carryOut].
type board struct {
	testing.TB
	*edit.History
}

// newBoard puts the text form of a network on a board, its lengths as drawn.
func newBoard(t testing.TB, text string) *board {
	t.Helper()
	n := sketch.Must(text)
	for i := range n.Pipes {
		n.Pipes[i].Length = nil
	}
	return boardOf(t, n)
}

func boardOf(t testing.TB, n *network.Network) *board {
	t.Helper()
	s, err := site.New(unit.US)
	require.NoError(t, err)
	s.Network = *n
	_, err = site.Decode([]byte(encode(t, s)))
	require.NoError(t, err)
	return &board{t, edit.NewHistory(s)}
}

// do carries an edit out and gives what it made.
func (b *board) do(e *edit.Edit, err error) edit.Ref {
	b.Helper()
	require.NoError(b, err)
	carryOut(b, b.Site(), e, encode(b, b.Site()))
	e.Undo(b.Site())
	b.Do(e)
	if len(e.Made()) == 0 {
		return edit.Ref{}
	}
	return e.Made()[0]
}

// refuses requires that an edit is refused with words in the reason.
func (b *board) refuses(words string, make func() (*edit.Edit, error)) {
	b.Helper()
	refuse(b, b.Site(), words, func(*site.Site) (*edit.Edit, error) { return make() })
}

func (b *board) node(id network.NodeID) network.Node { b.Helper(); return node(b, b.Site(), id) }

func (b *board) pipe(id network.PipeID) network.Pipe { b.Helper(); return pipe(b, b.Site(), id) }

// otherAt is the one pipe at a node besides some.
func (b *board) otherAt(node network.NodeID, known ...network.PipeID) network.PipeID {
	b.Helper()
	var rest []network.PipeID
	for _, p := range b.Site().Network.Pipes {
		if (p.From == node || p.To == node) && !slices.Contains(known, p.ID) {
			rest = append(rest, p.ID)
		}
	}
	require.Len(b, rest, 1)
	return rest[0]
}

// nodeAt is the node at a place.
func (b *board) nodeAt(x, y unit.Length) network.Node {
	b.Helper()
	for _, n := range b.Site().Network.Nodes {
		if n.At.Distance(pt(x, y)) < 1e-6 {
			return n
		}
	}
	require.Failf(b, "no node", "at %g, %g", x, y)
	return network.Node{}
}

// passage crosses from one pipe into another.
func (b *board) passage(from, to network.PipeID) network.Passage {
	b.Helper()
	g, _ := network.Trace(&b.Site().Network)
	p, okP := g.PipeIndex(from)
	q, okQ := g.PipeIndex(to)
	require.True(b, okP && okQ)
	return g.Passage(p, q)
}

// faults lists the errors among the findings of the drain.
func (b *board) faults() []string {
	g, all := network.Trace(&b.Site().Network)
	var kinds []string
	for _, f := range append(all, g.Findings(network.Code{}, nil)...) {
		if f.Gravity == network.Error {
			kinds = append(kinds, f.Kind)
		}
	}
	return kinds
}

func free(x, y unit.Length) edit.Anchor { return edit.Anchor{At: pt(x, y)} }

func onNode(id network.NodeID) edit.Anchor { return edit.Anchor{Node: id} }

func onPipe(id network.PipeID, x, y unit.Length) edit.Anchor {
	return edit.Anchor{Pipe: id, At: pt(x, y)}
}

// plastic is an ordinary pipe of a size.
func plastic(size unit.Size) edit.PipeStyle {
	return edit.PipeStyle{Size: size, Material: network.PVC40, Class: network.Main, Deposit: network.Grease}
}
