package drawing

import "image"

// Point is a place: metres east and north in the shapes of a panel,
// millimetres right and down on the paper.
type Point struct{ X, Y float64 }

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns the way from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Scale returns p stretched by k from the origin.
func (p Point) Scale(k float64) Point { return Point{k * p.X, k * p.Y} }

// Shape is one thing of a drawing. It is one of [Path], [Ticks], [Mark],
// [Text], [Leader] and [Picture].
type Shape interface{ paint(f Frame, p Painter) }

// Path is a line or an area on the ground.
type Path struct {
	Points []Point
	Closed bool
	Pen    Pen
	Fill   *Colour
}

// Ticks are strokes laid across a line at equal distances on paper: a hatch
// that follows a pipe.
type Ticks struct {
	Points []Point
	// Every is the distance of two ticks and Reach how far a tick goes to
	// either side, in millimetres. Cross makes each tick an X.
	Every, Reach float64
	Cross        bool
	Pen          Pen
}

// Mark is a symbol at a place.
type Mark struct {
	At Point
	// Off moves the symbol on paper, in millimetres right and down.
	Off    Point
	Symbol Symbol
	// Size is the symbol's width in millimetres.
	Size float64
	// Longer draws a disc or a square out to a capsule or a box, so much longer
	// than high.
	Longer float64
	// Turn points the symbol: radians counterclockwise from east.
	Turn float64
	Pen  Pen
	Fill *Colour
}

// Text is one line of lettering. Its baseline starts, is centred or ends at
// its place, as the style says.
type Text struct {
	At Point
	// Off moves the text on paper, in millimetres right and down.
	Off Point
	S   string
	// Wide is the width of S on paper in millimetres, as measured when the
	// drawing was made.
	Wide  float64
	Style Style
	// Turn is in radians counterclockwise; the text turns about its place.
	Turn float64
	// Plate, where set, is painted below the text, Pad millimetres larger.
	Plate *Colour
	Pad   float64
}

// Leader joins a label that was moved aside to its place.
type Leader struct {
	At Point
	// From and To are millimetres right and down of At.
	From, To Point
	Pen      Pen
}

// Picture is an image that lies on the ground.
type Picture struct {
	Image image.Image
	// At is where its middle lies, W and H its size in metres.
	At   Point
	W, H float64
	// Turn is in radians counterclockwise; Dim fades it, from 0 for as it is to 1
	// for not at all.
	Turn, Dim float64
}

// Layer is a part of the drawing that a reader may switch off.
type Layer string

// The layers, in the order in which a reader lists them. Base holds what is
// always shown.
const (
	Base      Layer = ""
	FloorPlan Layer = "Floor plan"
	Drains    Layer = "Drains"
	Runs      Layer = "Runs"
	Lays      Layer = "Hose lays"
	Notes     Layer = "Notes"
)

// Layers lists the layers that can be switched.
func Layers() []Layer { return []Layer{FloorPlan, Drains, Runs, Lays, Notes} }

// Item is a shape on its layer.
type Item struct {
	Layer Layer
	Shape Shape
}

// List is an ordered list of shapes; later ones cover earlier ones.
type List struct{ Items []Item }

// Add appends shapes to a layer.
func (l *List) Add(layer Layer, shapes ...Shape) {
	for _, s := range shapes {
		l.Items = append(l.Items, Item{layer, s})
	}
}
