//go:build race

package route_test

// raced says that the race detector is on, which makes everything ten times
// slower.
const raced = true
