//go:build race

package ui

// raced says that the race detector looks on, which makes all of it some ten times
// slower: it sees what there is to see in fewer rounds.
const raced = true
