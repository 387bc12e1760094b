//go:build !race

package site

// raced says that the race detector is on.
const raced = false
