//go:build !race

package route_test

// raced says that the race detector is on.
const raced = false
