package strip

import (
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
)

// shows is how long a day takes to play.
const shows = time.Minute

// player moves the marker on while the day plays.
type player struct {
	strip *Strip
	// start calls tick again and again until it is stopped.
	start func(tick func(now time.Time)) (stop func())
	stop  func()
	last  time.Time
}

// Play lets the day pass in about a minute, from where the marker is, or from its
// start if it is over.
func (s *Strip) Play() {
	if s.day == nil || s.Playing() {
		return
	}
	if s.time >= s.day.ends {
		s.SetTime(0)
	}
	s.player.last = time.Time{}
	s.player.stop = s.player.start(s.player.tick)
	if s.acts.Playing != nil {
		s.acts.Playing(true)
	}
}

// Pause stops the day where it is.
func (s *Strip) Pause() {
	if !s.Playing() {
		return
	}
	s.player.stop()
	s.player.stop = nil
	if s.acts.Playing != nil {
		s.acts.Playing(false)
	}
}

// Playing tells whether the day plays.
func (s *Strip) Playing() bool { return s.player.stop != nil }

// tick moves the marker on by the time that passed. After a hitch it goes on where
// it was, without a jump.
func (p *player) tick(now time.Time) {
	s := p.strip
	s.guard(func() {
		if !s.Playing() || s.day == nil {
			return
		}
		const hitch = 200 * time.Millisecond
		var passed time.Duration
		if !p.last.IsZero() {
			passed = max(0, min(now.Sub(p.last), hitch))
		}
		p.last = now
		s.SetTime(s.time + time.Duration(float64(passed)*float64(s.day.ends)/float64(shows)))
		if s.Playing() && s.time >= s.day.ends {
			s.Pause()
		}
	})
}

// startTicker ticks thirty times a second on the goroutine of the window. Where
// that lags, ticks are left out.
func startTicker(tick func(now time.Time)) (stop func()) {
	ticker := time.NewTicker(time.Second / 30)
	done := make(chan struct{})
	var waiting atomic.Bool
	go func() {
		for {
			select {
			case <-done:
				return
			case <-ticker.C:
				if waiting.CompareAndSwap(false, true) {
					fyne.Do(func() {
						waiting.Store(false)
						select {
						case <-done: // stopped while it waited
						default:
							tick(time.Now())
						}
					})
				}
			}
		}
	}()
	return func() {
		ticker.Stop()
		close(done)
	}
}
