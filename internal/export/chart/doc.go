// Package chart draws a site and its plan as a map: one page, to a standard
// scale, for the people of the building and for the crew.
//
// [Draw] puts the storeys on the page ([storeys], [arrange]), draws each of
// them (pipes, openings, runs, hose lays), finds places for all labels with
// package label, and sets the side column: north, scale bars, legend, what is
// not reached and why, the runs in order and the title block.
//
// Nothing on the map is told by colour alone: pipe sizes are line weights,
// materials dash patterns, runs numbers, shortfalls crosses with a letter.
// Places are named in the trade's letters, which [letters] lists.
package chart
