//go:build race

package chart

// raced tells that the race detector watches and everything is ten times
// slower. Tests of layout, which one goroutine does, then take fewer samples.
const raced = true
