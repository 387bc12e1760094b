// Package label finds places for the labels of a drawing, so that none covers
// another and as little as possible of the drawing is covered.
//
// Each [Item] brings its candidate places, each with a price; what stands on
// the paper already is given as walls. [Place] picks one candidate for each
// item: greedily in the order given, then by sweeps in which each item moves
// to its best place as the others stand, then by letting an item that found no
// free place push others aside where that pays. Nothing is left to chance: the
// same input gives the same places. A place is priced only when it may be the
// next best, against the walls in the squares of the paper that it touches, and
// the pushes are counted, so that the work grows with the labels, not with their
// square.
//
// Positions are millimetres on paper, x to the right and y down.
package label
