// Package export makes the papers and the data of a plan: the run sheet for the
// crew, the map and the notice for the building's manager, the quote for the
// customer, and the plan as CSV, JSON and GeoJSON.
//
// [Papers] lists them all, and [WritePapers] writes those that are chosen into a
// folder; [RunSheet], [Map], [MapSVG], [MapPNG], [Notice], [Quote], [QuoteCSV],
// [PlanCSV], [PlanJSON] and [GeoJSON] make one each in memory. The same site and
// plan give the same bytes. Nothing is read but the floor plans that lie beside
// the site's file, see [Options].
//
// A paper is made in two steps. First its content is put into finished words in
// the paper's units, as plain data that a test can read (the type sheet and its
// parts); then it is set on pages: package paper draws, package flow breaks
// pages. The safety rules that go with every paper are [Cautions] and
// [LastWord].
package export
