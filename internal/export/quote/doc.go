// Package quote works out what a planned job costs: the quantities of the work
// as the plan has them ([Measure]), times the contractor's prices ([Price]).
// It sets no paper.
//
// # Money
//
// Amounts are decimal and exact; no float touches one. A quantity is rounded
// once, to the digits that it is written with: hundredths of an hour, tenths of
// a foot or metre, whole gallons or litres of water. A line's amount is its
// quantity, as written, times its rate, rounded half up to the currency's minor
// unit (ISO 4217, [site.Prices.Places]). The lines are then summed, tax is taken
// once on the sum and rounded the same way, and the total is the sum and the tax
// with no rounding of its own. So whoever multiplies and adds the figures on the
// paper gets the same total. Half up is common practice for prices; it differs
// from half even only where exactly half of a minor unit is left.
package quote
