// Package linestrip draws a run of the hose as one straight line, to scale by
// the hose counter: the hose on the ground dashed, every pipe in the weight and
// pattern of the map, what is cleaned on a band, what lies in it as a hatch, and
// a mark at every place that the hose should feel.
//
// A strip runs down the page from the reel to the far end. Beside it stand rows
// of words, one for each mark; [Line.Draw] is told where, and joins each mark
// with its row by a leader. Rows cannot lie where their marks do, since
// fittings may be closer than a line of text is high: [Spread] moves them apart
// no more than it must, in order, so that leaders never cross.
//
// [Sign] draws the turn signs of the rows: what the hose does at a place, ahead
// being up, as on a road sign.
//
// Everything is in millimetres right and down of the top left corner of the
// strip; [Frame] puts it on a page. Nothing is told by colour.
package linestrip
