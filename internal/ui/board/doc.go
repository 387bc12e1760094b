// Package board is the drawing board: the widget on which the site is drawn and
// edited.
//
// The drawing is painted into a bitmap larger than the board, in a goroutine of
// its own (paint.go). Panning moves that bitmap and zooming stretches it until
// a new one is there, so that the board answers in the time of a frame however
// large the site is. What changes with the pointer (what it would draw, what is
// selected, the hose while the day is played) stands above the bitmap as a few
// live objects (overlay.go). What the pointer does becomes events for the tool
// in hand (input.go); package hand decides what they mean.
package board
