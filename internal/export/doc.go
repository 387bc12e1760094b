// Package export makes the papers and the data of a plan: the run sheet for the
// crew, the map for the building's manager, and the plan as CSV and JSON.
//
// [WritePapers] writes all of them into a folder; [RunSheet], [Map], [MapSVG],
// [PlanCSV] and [PlanJSON] make one each in memory. All are pure: the same site
// and plan give the same bytes.
//
// A paper is made in two steps. First its content is put into finished words in
// the paper's units, as plain data that a test can read (the type sheet and its
// parts); then it is set on pages: package paper draws, package flow breaks
// pages. The safety rules that go with every paper are [Cautions] and
// [LastWord].
package export
