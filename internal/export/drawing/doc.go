// Package drawing holds a map as an ordered list of shapes, so that the PDF,
// the SVG, the picture and the screen all paint the same thing.
//
// Shapes stand where they are on the ground, in metres east and north, while
// everything that a reader must be able to read (line widths, dashes, symbols,
// text) is sized on paper. A [Sheet] is one page: panels, each a list of
// shapes with the [Frame] that puts its metres on the paper. [Paint] walks a
// sheet and hands a [Painter] plain outlines and texts in millimetres.
package drawing
