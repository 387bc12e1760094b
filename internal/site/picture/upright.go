package picture

import (
	"encoding/binary"
	"image"
)

// turn is how a camera was held, by the Orientation of Exif (CIPA DC-008, tag
// 0x0112): 1 upright, 3 upside down, 6 and 8 on its sides, 2, 4, 5 and 7 the
// same in a mirror. 0 is not known and taken as upright.
type turn int

// swaps reports whether width and height change places.
func (t turn) swaps() bool { return t >= 5 && t <= 8 }

// from returns which dot of a stored picture of w by h dots is at a place of the
// upright one.
func (t turn) from(x, y, w, h int) (int, int) {
	switch t {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return y, h - 1 - x
	case 7:
		return w - 1 - y, h - 1 - x
	case 8:
		return w - 1 - y, x
	}
	return x, y
}

// upright returns a picture as it is looked at.
func (t turn) upright(m *image.RGBA) *image.RGBA {
	if t < 2 || t > 8 {
		return m
	}
	w, h := m.Rect.Dx(), m.Rect.Dy()
	size := image.Rect(0, 0, w, h)
	if t.swaps() {
		size = image.Rect(0, 0, h, w)
	}
	out := image.NewRGBA(size)
	for y := range size.Dy() {
		for x := range size.Dx() {
			sx, sy := t.from(x, y, w, h)
			copy(out.Pix[out.PixOffset(x, y):][:4], m.Pix[m.PixOffset(sx, sy):][:4])
		}
	}
	return out
}

// jpegFacts are what the segments before the dots of a JPEG tell.
type jpegFacts struct {
	turn        turn
	progressive bool
}

// Markers of JPEG segments (ITU-T T.81, table B.1).
const (
	markProgressive = 0xc2
	markScan        = 0xda
	markExif        = 0xe1
)

// readJPEG walks the segments of a JPEG up to its dots. Where they make no
// sense it stops with what it has: decoding says what is wrong.
func readJPEG(data []byte) (facts jpegFacts) {
	const start, head = 2, 4 // the start marker; marker and length of a segment
	for at := start; at+head <= len(data) && data[at] == 0xff; {
		mark := data[at+1]
		if mark == 0xff { // a byte of padding
			at++
			continue
		}
		end := at + 2 + int(binary.BigEndian.Uint16(data[at+2:]))
		if mark == markScan || end < at+head || end > len(data) {
			break
		}
		switch body := data[at+head : end]; {
		case mark == markProgressive:
			facts.progressive = true
		case mark == markExif && len(body) > 6 && string(body[:6]) == "Exif\x00\x00" && facts.turn == 0:
			facts.turn = orientation(body[6:])
		}
		at = end
	}
	return facts
}

// orientation finds how the camera was held in a TIFF structure, 0 where that
// is not said.
func orientation(tiff []byte) turn {
	const (
		header, entry      = 8, 12
		tagOrientation     = 0x0112
		typeShort          = 3
		valueAt, countSize = 8, 2
	)
	if len(tiff) < header {
		return 0
	}
	var order binary.ByteOrder = binary.BigEndian
	if string(tiff[:2]) == "II" {
		order = binary.LittleEndian
	}
	at := int(order.Uint32(tiff[4:]))
	if at < header || at > len(tiff)-countSize {
		return 0
	}
	n := int(order.Uint16(tiff[at:]))
	for list := tiff[at+countSize:]; n > 0 && len(list) >= entry; n, list = n-1, list[entry:] {
		if order.Uint16(list) == tagOrientation && order.Uint16(list[2:]) == typeShort {
			if t := turn(order.Uint16(list[valueAt:])); t >= 1 && t <= 8 {
				return t
			}
			return 0
		}
	}
	return 0
}
