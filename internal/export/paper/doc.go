// Package paper is what every printed page of linemap shares: page sizes and
// margins, the document font and its metrics, the PDF set-up that gives the
// same bytes for the same input, and the small vocabulary of text, lines,
// boxes, check boxes and arrows that the papers are set in.
//
// A [Doc] is a PDF being written. Positions and sizes on it are millimetres
// from the top left corner of the page, text sizes are points, and the first
// error sticks: it comes out of [Doc.Bytes].
package paper
