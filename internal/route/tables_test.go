package route

import (
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/site"
)

// tables reads the trade tables.
func tables(tb testing.TB) *site.Tables {
	tb.Helper()
	t, err := site.LoadTables()
	require.NoError(tb, err)
	return t
}
