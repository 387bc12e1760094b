package drawing

import "fmt"

// Colour is an sRGB colour.
type Colour struct{ R, G, B uint8 }

// Hex writes a colour as #rrggbb.
func (c Colour) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Tint mixes c with white: 1 leaves c, 0 gives white.
func (c Colour) Tint(share float64) Colour {
	mix := func(v uint8) uint8 { return uint8(255 - share*float64(255-v) + 0.5) }
	return Colour{mix(c.R), mix(c.G), mix(c.B)}
}

// Luma is the lightness that is left of c in grey, 0 to 1 (Rec. 709 weights).
func (c Colour) Luma() float64 {
	return (0.2126*float64(c.R) + 0.7152*float64(c.G) + 0.0722*float64(c.B)) / 255
}

// The neutral inks.
var (
	Black = Colour{0, 0, 0}
	Grey  = Colour{89, 89, 89}
	Pale  = Colour{168, 168, 168}
	Faint = Colour{222, 222, 222}
	White = Colour{255, 255, 255}
)

// The accents: the palette of Okabe and Ito, "Color Universal Design" (2008),
// which readers with the common kinds of colour blindness tell apart.
var (
	Orange     = Colour{230, 159, 0}
	SkyBlue    = Colour{86, 180, 233}
	Green      = Colour{0, 158, 115}
	Yellow     = Colour{240, 228, 66}
	Blue       = Colour{0, 114, 178}
	Vermillion = Colour{213, 94, 0}
	Purple     = Colour{204, 121, 167}
)

// Pen draws a line. Width and the dash lengths are millimetres on paper at any
// scale; a zero width draws nothing.
type Pen struct {
	Width float64
	Ink   Colour
	// Dash lists dash and gap lengths in turn, nil for a solid line.
	Dash []float64
	// Round ends the line in half circles; with a dash of length 0 it dots.
	Round bool
}

// Align says which part of a text stands at its place.
type Align int

// The alignments.
const (
	Left Align = iota
	Centre
	Right
)

// Style is how a text looks. Pt is its size in points.
type Style struct {
	Pt    float64
	Bold  bool
	Ink   Colour
	Align Align
}

// Set returns st with another alignment.
func (st Style) Set(a Align) Style { st.Align = a; return st }

// In returns st in another ink.
func (st Style) In(c Colour) Style { st.Ink = c; return st }
