package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
)

func TestAdvise(t *testing.T) {
	code, stdout, stderr := call(t.Context(), "advise", demo("restaurant"))
	assert.Equal(t, exitOK, code, stderr)
	golden(t, "advise-restaurant.golden", stdout)
}

// TestAdviseRigs compares the site's own rig, from a file, with itself.
func TestAdviseRigs(t *testing.T) {
	s, err := site.Open(demo("restaurant"))
	require.NoError(t, err)
	data, err := site.EncodeRig(&s.Rig)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "own"+site.RigExtension)
	require.NoError(t, os.WriteFile(path, data, 0o600))

	code, stdout, stderr := call(t.Context(), "advise", demo("restaurant"), "--json", "--rig", path, "--rig", path)
	assert.Equal(t, exitOK, code, stderr)
	var doc struct {
		Rigs []map[string]any `json:"rigs"`
		Best int              `json:"best_rig"`
	}
	require.NoError(t, json.Unmarshal([]byte(stdout), &doc))
	require.Len(t, doc.Rigs, 2)
	assert.Equal(t, doc.Rigs[0], doc.Rigs[1])
	assert.Zero(t, doc.Rigs[0]["saves_minutes"])
	assert.Zero(t, doc.Best)
}

func TestAdviseRefuses(t *testing.T) {
	code, _, stderr := call(t.Context(), "advise")
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, stderr, "name the site file")
	code, _, _ = call(t.Context(), "advise", demo("nowhere"))
	assert.Equal(t, exitUnreadable, code)
	code, _, stderr = call(t.Context(), "advise", demo("restaurant"), "--rig", demo("restaurant"))
	assert.Equal(t, exitUnreadable, code)
	assert.Contains(t, stderr, "restaurant.linemap")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	code, stdout, stderr := call(ctx, "advise", demo("restaurant"))
	assert.Equal(t, exitInterrupted, code)
	assert.Empty(t, stdout)
	assert.Contains(t, stderr, "nothing is printed")
}
