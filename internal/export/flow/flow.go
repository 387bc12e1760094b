// Package flow breaks a document into pages: it takes groups of pieces that
// want to stay together and decides on which page, at which height, each piece
// is drawn.
//
// It knows nothing of ink. A [Piece] is a height and a function that draws it;
// a [Group] is a list of pieces that stays on one page where it fits on one,
// and otherwise goes on under a repeated header. Heights are in any one unit,
// measured downward.
package flow

// Piece is something drawn at one place of a page.
type Piece struct {
	Height float64
	// Draw draws the piece with its top left corner at x, y. Nil leaves a gap.
	Draw func(x, y float64)
	// Split cuts the piece so that head is no higher than room, nil for a piece
	// that stays whole. It reports false where nothing useful fits.
	Split func(room float64) (head, rest Piece, ok bool)
}

// Gap is blank space. It vanishes at the top of a page and at the foot.
func Gap(height float64) Piece { return Piece{Height: height} }

// Group is a list of pieces that belong together: it stays on one page where it
// fits on one, unless it is loose.
type Group struct {
	Pieces []Piece
	// Lead is how many pieces at the start never stand at the foot of a page
	// without the piece that follows them.
	Lead int
	// Loose lets the group part between its pieces even where a fresh page would
	// hold it whole.
	Loose bool
	// Again is the header of a continuation on a further page, nil for none.
	Again *Piece
}

// Placed is a piece at its place; Y is the top of it, from the top of the
// page's body.
type Placed struct {
	Piece
	Y float64
}

// Page is what stands on one page.
type Page []Placed

// Setter fills pages of one height.
type Setter struct {
	height float64
	pages  []Page
	y      float64
	heads  int // repeated headers at the top of the last page
	held   []Piece
}

// New returns a Setter for pages of the given height. It has one page, empty.
func New(height float64) *Setter { return &Setter{height: height, pages: []Page{nil}} }

// Pages returns the pages filled so far, and sets what is still held.
func (s *Setter) Pages() []Page {
	if held := s.held; len(held) > 0 {
		s.held = nil
		s.Add(Group{Pieces: held})
	}
	return s.pages
}

// Rest is the share of the last page that is still free.
func (s *Setter) Rest() float64 { return 1 - s.y/s.height }

// Break starts a new page, unless the page is still empty.
func (s *Setter) Break() {
	if len(s.pages[len(s.pages)-1]) > 0 {
		s.pages, s.y, s.heads = append(s.pages, nil), 0, 0
	}
}

// Hold keeps pieces back and sets them at the head of the next group: a
// heading stays with what it heads.
func (s *Setter) Hold(pieces ...Piece) { s.held = append(s.held, pieces...) }

// Add sets a group. It starts a new page where the group does not fit on the
// rest of this one but would on a fresh one; a group higher than a page starts
// where its lead and something after it fit.
func (s *Setter) Add(g Group) {
	g.Lead += len(s.held)
	g.Pieces = append(s.held[:len(s.held):len(s.held)], g.Pieces...)
	s.held = nil
	total := inked(g.Pieces)
	need := total
	if total > s.height || g.Loose {
		need = Height(g.Pieces[:min(g.Lead, len(g.Pieces))]) + s.foothold(g)
	}
	if s.y+need > s.height {
		s.Break()
	}
	for _, p := range g.Pieces {
		s.set(p, g.Again)
	}
}

// footholdShare is the part of a page that a divided group wants below its
// lead, so that no mere line of it stands at the foot.
const footholdShare = 0.2

// foothold is the room that a divided group needs below its lead.
func (s *Setter) foothold(g Group) float64 {
	return min(Height(g.Pieces[min(g.Lead, len(g.Pieces)):]), footholdShare*s.height)
}

// set places one piece, on further pages where it must.
func (s *Setter) set(p Piece, again *Piece) {
	if p.Draw == nil && p.Split == nil && s.y+p.Height > s.height {
		s.y = s.height
		return
	}
	for s.y+p.Height > s.height {
		if p.Split != nil {
			if head, rest, ok := p.Split(s.height - s.y); ok {
				s.put(head)
				p = rest
				s.turn(again)
				continue
			}
		}
		if len(s.pages[len(s.pages)-1]) == s.heads {
			break // higher than a page and whole: it runs over the edge
		}
		s.turn(again)
	}
	s.put(p)
}

// turn starts a page with the header of the continuation.
func (s *Setter) turn(again *Piece) {
	s.Break()
	if again != nil {
		s.put(*again)
		s.heads = len(s.pages[len(s.pages)-1])
	}
}

func (s *Setter) put(p Piece) {
	if p.Draw == nil && s.y == 0 {
		return
	}
	last := len(s.pages) - 1
	s.pages[last] = append(s.pages[last], Placed{p, s.y})
	s.y += p.Height
}

// inked is the height of pieces down to the last that is drawn: blank space
// after it needs no room.
func inked(pieces []Piece) float64 {
	n := len(pieces)
	for n > 0 && pieces[n-1].Draw == nil && pieces[n-1].Split == nil {
		n--
	}
	return Height(pieces[:n])
}

// Height is the height of pieces one below the other.
func Height(pieces []Piece) float64 {
	h := 0.0
	for _, p := range pieces {
		h += p.Height
	}
	return h
}
