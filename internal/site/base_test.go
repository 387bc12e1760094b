package site

import (
	_ "embed"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// whole is a document that holds every member of the format at least once.
//
//go:embed testdata/whole.linemap
var whole string

// wholeSite loads it.
func wholeSite(t testing.TB) *Site {
	t.Helper()
	s, err := Decode([]byte(whole))
	require.NoError(t, err)
	return s
}

// change replaces the one place where old stands in the document.
func change(t testing.TB, old, with string) string {
	t.Helper()
	require.Equal(t, 1, strings.Count(whole, old), "%q must stand once in the document", old)
	return strings.Replace(whole, old, with, 1)
}
