package form

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/site"
)

func TestLibraryRoundTrip(t *testing.T) {
	l := Library{Folder: filepath.Join(t.TempDir(), "not", "there", "yet")}
	all, err := l.List()
	require.NoError(t, err)
	defaults := len(all)
	require.Positive(t, defaults)
	r := *all[0].Rig
	for _, name := range []string{"Truck 7", "Truck/7", "../../etc", "Крот", "truck 7", "  Spaces  "} {
		require.NoError(t, l.Save(name, r), name)
	}
	all, err = l.List()
	require.NoError(t, err)
	var names []string
	for _, o := range all[defaults:] {
		require.NoError(t, o.Err)
		assert.Equal(t, l.Folder, filepath.Dir(o.File), "no name leads out of the folder")
		names = append(names, o.Name)
		want := r.Clone()
		want.Name = o.Name
		assert.Equal(t, want, *o.Rig)
	}
	assert.ElementsMatch(t, []string{"Truck 7", "Truck/7", "../../etc", "Крот", "truck 7", "Spaces"}, names)

	// The same name is the same rig.
	r.Crew.People = 9
	require.NoError(t, l.Save("Truck 7", r))
	again, err := l.List()
	require.NoError(t, err)
	assert.Len(t, again, len(all))
	for _, o := range again {
		if o.Name == "Truck 7" {
			assert.Equal(t, 9, o.Rig.Crew.People)
		}
	}
	require.Error(t, l.Save(" ", r))
	require.Error(t, l.Delete(all[0]))
	require.NoError(t, l.Delete(all[defaults]))
	all, err = l.List()
	require.NoError(t, err)
	assert.Len(t, all, len(again)-1)
}

func TestLibraryOfHostileFiles(t *testing.T) {
	l := Library{Folder: t.TempDir()}
	put := func(name string, data []byte) string {
		path := filepath.Join(l.Folder, name)
		require.NoError(t, os.WriteFile(path, data, 0o600))
		return path
	}
	put("broken"+site.RigExtension, []byte("{"))
	put("other.txt", []byte("not looked at"))
	big := put("big"+site.RigExtension, make([]byte, site.MaxRigBytes+1))
	require.NoError(t, os.Mkdir(filepath.Join(l.Folder, "folder"+site.RigExtension), 0o700))
	all, err := l.List()
	require.NoError(t, err)
	broken := 0
	for _, o := range all {
		if o.Err != nil {
			broken++
			assert.Nil(t, o.Rig)
			assert.Contains(t, o.Err.Error(), site.RigExtension, "it names the file")
		}
	}
	assert.Equal(t, 3, broken)
	_, err = l.Import(big)
	require.ErrorContains(t, err, "at most 8388608 bytes")
	_, err = l.Import(filepath.Join(l.Folder, "gone"))
	require.Error(t, err)
	r, err := site.DefaultRig("us")
	require.NoError(t, err)
	require.NoError(t, l.Save("Sound", *r), "broken files keep no one from saving")
	bad := r.Clone()
	bad.Hoses[0].Bore = -1
	require.ErrorContains(t, l.Save("Bad", bad), "bore")
	require.ErrorContains(t, l.Export(filepath.Join(l.Folder, "x"), bad), "bore")
}
