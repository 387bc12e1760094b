package chart

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"linemap/internal/export/paper"
	"linemap/internal/site"
	"linemap/internal/unit"
)

func TestTry(t *testing.T) {
	c, err := Draw(shop(), shopPlan(), Options{Paper: site.Letter, Units: unit.US, Date: "Mar 17, 2026", Safety: "Safe"})
	require.NoError(t, err)
	d := paper.New(site.Letter, true, paper.Meta{Title: "x"})
	d.AddPage()
	d.Paint(c.Sheet)
	b, err := d.Bytes()
	require.NoError(t, err)
	require.NoError(t, os.WriteFile("/tmp/m/shop.pdf", b, 0o644))
}
