package picture

import "image"

// AtMost returns the picture with no more than so many dots either way, each
// the mean of those of the picture that it stands for.
func (s *Shown) AtMost(dots int) image.Image {
	size := s.Image.Bounds().Size()
	return shrink(s.Image, max(1, (max(size.X, size.Y)+dots-1)/dots))
}
