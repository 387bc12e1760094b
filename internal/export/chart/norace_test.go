//go:build !race

package chart

// raced: see race_test.go.
const raced = false
