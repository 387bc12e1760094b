package strip

import "time"

// span puts a stretch of the day on the screen: the time from is at left, and
// shown of the day takes the width.
type span struct {
	from, shown time.Duration
	left, width float64 // pixels
}

// closest is how little of a day can be shown.
const closest = 2 * time.Minute

// whole shows a day from its start to its end.
func whole(ends time.Duration, left, width float64) span {
	return span{shown: max(ends, 1), left: left, width: max(width, 1)}
}

// x is where a time is.
func (s span) x(t time.Duration) float64 {
	return s.left + float64(t-s.from)/float64(s.shown)*s.width
}

// time is the time at a place.
func (s span) time(x float64) time.Duration {
	return s.from + time.Duration((x-s.left)/s.width*float64(s.shown))
}

func (s span) to() time.Duration { return s.from + s.shown }

// within holds a span to a day.
func (s span) within(ends time.Duration) span {
	ends = max(ends, 1)
	s.shown = max(min(closest, ends), min(s.shown, ends))
	s.from = max(0, min(s.from, ends-s.shown))
	return s
}

// zoom shows so many times less of the day; the time at x stays there.
func (s span) zoom(x, times float64, ends time.Duration) span {
	at := s.time(x)
	shown := float64(s.shown) / max(times, 1e-3)
	s.shown = time.Duration(max(float64(min(closest, ends)), min(shown, float64(ends))))
	s.shown = max(s.shown, 1)
	s.from = at - time.Duration((x-s.left)/s.width*float64(s.shown))
	return s.within(ends)
}

// scroll moves the day by pixels, to the right for dx above 0.
func (s span) scroll(dx float64, ends time.Duration) span {
	s.from -= time.Duration(dx / s.width * float64(s.shown))
	return s.within(ends)
}

// show scrolls as far as a time needs to be seen, with a tenth of the width to
// spare.
func (s span) show(t, ends time.Duration) span {
	room := s.shown / 10
	switch {
	case t < s.from:
		s.from = t - room
	case t > s.to():
		s.from = t - s.shown + room
	}
	return s.within(ends)
}
