//go:build !race

package ui

const raced = false
