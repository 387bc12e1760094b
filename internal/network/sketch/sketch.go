// Package sketch reads a drain network from one line of text, so that a table
// test reads like the sketch on a clipboard:
//
//	OUT -40ft/4in- W1 -20ft- CO1(up) ; W1 ~15ft/2in/grease- F1
//
// # Chains
//
// A text is one or more chains, split by ";" or by line breaks. A chain is
// nodes joined by pipes. A pipe is written between two dashes; "~" in place of
// a dash says that the pipe is a branch of the junction on that side. A node
// may be named again in a later chain to go on from it, or to close a loop.
// The flow is not written: it is worked out by [network.Trace].
//
// # Nodes
//
// The letters that a node's name starts with give its kind:
//
//	OUT outlet    W  wye             CO cleanout, two-way   B  bend
//	F   fixture   T  sanitary tee    MH manhole             R  reducer
//	CAP cap       C  combination     CB catch basin         TR trap
//	              DW double wye      VT roof vent           BV backwater valve
//	              X  cross           PF pulled fixture
//
// Words in parentheses after the name, at any mention, say more:
//
//	up down           one-way cleanout facing up or down the flow
//	through           a trap or valve that lets the hose through
//	turn=90           degrees that a bend or a trap turns (bends: 90 as drawn)
//	right left        the way a bend turns on the plan (left)
//	size=3in          opening of an access (4 in)
//	riser=2ft entry=45 minutes=5 room=kitchen indoor buried
//	invert=-4.5ft level=roof label=CO-1 at=10ft,-20ft
//
// # Pipes
//
// A pipe is fields split by "/". The first is its length; a size holds on
// along its chain, and 4 in PVC with grease in it is the default:
//
//	40ft 12.5m        length, as measured
//	4in               nominal size
//	pvc abs iron clay concrete
//	clean grease sediment scale roots ice stoppage unknown
//	light moderate heavy
//	lateral branch main stack drain sewer
//	fragile ceiling=500psi out slope=2% id=p1 label=P1 (no dash)
//
// A pipe's ID is the names of its ends as written, "OUT-W1", with ".2" added
// for a second one between the same ends.
//
// # Places
//
// The first node stands at the origin and chains run east; bends and branches
// turn by their angle, the first branch of a junction to the left, the second
// to the right. A stack goes straight up. Another chain with no known node
// starts 100 m further south.
package sketch

import (
	"fmt"
	"strings"

	"linemap/internal/network"
)

// Must is [Parse] for tests: it panics on a text that Parse refuses.
func Must(text string) *network.Network {
	n, err := Parse(text)
	if err != nil {
		panic(err)
	}
	return n
}

// Parse reads a network from its text form. Errors name the chain and the word
// that it cannot read.
func Parse(text string) (*network.Network, error) {
	p := parser{
		net:   &network.Network{Nodes: []network.Node{}, Pipes: []network.Pipe{}},
		nodes: map[string]int{},
		ids:   map[network.PipeID]int{},
	}
	for _, chain := range strings.FieldsFunc(text, func(r rune) bool { return r == ';' || r == '\n' }) {
		if strings.TrimSpace(chain) == "" {
			continue
		}
		if err := p.chain(chain); err != nil {
			return nil, fmt.Errorf("sketch, chain %q: %w", strings.TrimSpace(chain), err)
		}
	}
	return p.net, nil
}

// parser holds what is read so far.
type parser struct {
	net   *network.Network
	nodes map[string]int         // node index by name
	pens  []pen                  // by node index
	ids   map[network.PipeID]int // times an ID was taken
	lone  int                    // chains that started with a new node
}

// chain reads one chain: node { pipe node }.
func (p *parser) chain(text string) error {
	s := scanner{rest: text}
	at, err := p.node(&s)
	if err != nil {
		return err
	}
	if !p.pens[at].placed {
		p.start(at)
	}
	link := p.inherit(at)
	for s.more() {
		if link, err = p.link(&s, link); err != nil {
			return err
		}
		next, err := p.node(&s)
		if err != nil {
			return err
		}
		if err := p.join(at, next, link); err != nil {
			return err
		}
		at = next
	}
	return nil
}

// node reads a node's name and words.
func (p *parser) node(s *scanner) (int, error) {
	name, words, err := s.node()
	if err != nil {
		return 0, err
	}
	i, ok := p.nodes[name]
	if !ok {
		node, err := newNode(name)
		if err != nil {
			return 0, err
		}
		i = len(p.net.Nodes)
		p.nodes[name] = i
		p.net.Nodes = append(p.net.Nodes, node)
		p.pens = append(p.pens, pen{})
	}
	for _, w := range words {
		if err := p.nodeWord(i, w); err != nil {
			return 0, fmt.Errorf("node %s: %w", name, err)
		}
	}
	return i, nil
}

// link is a pipe as written, with the sides on which it is a branch.
type link struct {
	pipe         network.Pipe
	atFrom, atTo bool
	words        []string
}

// inherit gives the defaults of a chain that starts at a node: the size of the
// first pipe there.
func (p *parser) inherit(node int) link {
	l := link{pipe: network.Pipe{Size: 4}}
	id := p.net.Nodes[node].ID
	for _, q := range p.net.Pipes {
		if q.From == id || q.To == id {
			l.pipe.Size = q.Size
			break
		}
	}
	return l
}

// link reads a pipe; before is the pipe before it in the chain.
func (p *parser) link(s *scanner, before link) (link, error) {
	l := link{pipe: network.Pipe{
		Size: before.pipe.Size, Material: network.PVC40,
		Class: network.Main, Deposit: network.Grease,
	}}
	var err error
	if l.atFrom, l.words, l.atTo, err = s.link(); err != nil {
		return l, err
	}
	for _, w := range l.words {
		if err := pipeWord(&l.pipe, w); err != nil {
			return l, err
		}
	}
	if l.pipe.Length == nil {
		return l, fmt.Errorf("pipe %q has no length", strings.Join(l.words, "/"))
	}
	return l, nil
}

// join adds the pipe between two nodes, notes it at its junctions and places
// the far node if it has no place yet.
func (p *parser) join(from, to int, l link) error {
	a, b := &p.net.Nodes[from], &p.net.Nodes[to]
	l.pipe.From, l.pipe.To = a.ID, b.ID
	if l.pipe.ID == "" {
		l.pipe.ID = network.PipeID(string(a.ID) + "-" + string(b.ID))
	}
	base := l.pipe.ID
	for k := 2; p.ids[l.pipe.ID] > 0; k++ {
		l.pipe.ID = network.PipeID(fmt.Sprintf("%s.%d", base, k))
	}
	p.ids[l.pipe.ID]++
	for _, side := range []struct {
		branch bool
		node   *network.Node
	}{{l.atFrom, a}, {l.atTo, b}} {
		if !side.branch {
			continue
		}
		if side.node.Junction == nil {
			return fmt.Errorf("pipe %s is written as a branch of %s, which is no junction", l.pipe.ID, side.node.ID)
		}
		side.node.Junction.Branches = append(side.node.Junction.Branches, l.pipe.ID)
	}
	p.net.Pipes = append(p.net.Pipes, l.pipe)
	p.draw(from, to, l)
	return nil
}
