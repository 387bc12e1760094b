package picture

import (
	"encoding/binary"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzShow asks that no bytes make a picture panic, and that what is shown has
// the size that was found at first.
func FuzzShow(f *testing.F) {
	photo := jpegOf(f, plan(16, 8))
	f.Add(pngOf(f, plan(8, 6)))
	f.Add(photo)
	f.Add(withOrientation(photo, binary.LittleEndian, 6))
	f.Add(pngHeader(60000, 60000, 8, 6))
	f.Add([]byte("%PDF-1.7"))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x02\xff\xff\xff"))
	f.Fuzz(func(t *testing.T, data []byte) {
		facts, err := inspect(data)
		if err != nil {
			return
		}
		if facts.config.Width*facts.config.Height > 1_000_000 {
			return // allowed, but slow to try by the thousand
		}
		shown, err := show(data)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		require.Equal(t, facts.size(), shown.Size)
		require.Equal(t, shown.Size, shown.Image.Rect.Size())
		require.Equal(t, 1, shown.Factor)
	})
}
