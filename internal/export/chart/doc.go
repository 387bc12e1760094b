// Package chart draws a site and its plan as a map, to standard scales, for the
// people of the building and for the crew: one page where that can be read,
// else more.
//
// [Draw] works in steps:
//
//   - storeys: the levels become plans, those that pipes run between as one or
//     apart, and the plan with the outlet leads (storey.go, levels.go);
//   - pages: the plans are spread over pages and scales so that the whole is
//     least hard to read; one that is too large for a page becomes an overview
//     with tiles on sheets of their own (crowd.go, arrange.go, pages.go,
//     tile.go);
//   - panels: each is drawn as a list of shapes in metres (runs.go, lays.go,
//     pipes.go, nodes.go), and package label finds places for its labels
//     (notes.go, place.go), for several panels at once;
//   - the side column: north, scale bars, legend, what is not cleaned and why,
//     the runs in order and the title block (side.go and what follows it).
//
// [NewBoard] makes the same drawing for a screen, of any part of one level at any
// scale (board.go, view.go): the same code draws it, thinner at a small scale,
// with the labels that there is room for (near.go), which stand where they stand
// whatever part is looked at. A name or a number is repeated along what is longer
// than a screen (stations.go).
//
// [Spots] is a small map of where the trailer stands, for the run sheet.
//
// Nothing on the map is told by colour alone: pipe sizes are line weights,
// materials dash patterns, runs numbers, shortfalls crosses with a letter.
// Places are named in the trade's letters (letters.go).
package chart
