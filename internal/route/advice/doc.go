// Package advice compares plans of one site: with new cleanouts, with other
// spots, with other rigs, with one rule relaxed. Every figure that it gives is
// that of a plan made for it.
//
// Its functions are pure: they read a site and change only copies of it.
package advice
