//go:build !race

package export

// raced: see race_test.go.
const raced = false
