//go:build race

package site

// raced says that the race detector is on, which makes everything ten times
// slower.
const raced = true
