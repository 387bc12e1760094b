// Package raster paints a sheet of a drawing into a bitmap: for the window and
// for pictures.
//
// [New] makes a [Painter] for a bitmap; [drawing.Paint] hands it the shapes, and
// [Painter.Flush] finishes the picture. Edges are smoothed. Shapes of one style
// that follow each other are filled as one, so a drawing whose list is in the
// order of its styles paints fastest. Whatever the shapes are, nothing is
// painted outside the bitmap.
package raster
