package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/route"
	"linemap/internal/route/advice"
)

// tell plays a search that has news at these times, in ms after its start.
func tell(p *progress, clock *time.Time, ms ...int) {
	start := *clock
	for _, at := range ms {
		*clock = start.Add(time.Duration(at) * time.Millisecond)
		p.report(route.Progress{Cost: 372 * time.Minute, Bound: 350 * time.Minute})
	}
	p.done()
}

func TestProgress(t *testing.T) {
	const line = "planning: best so far 6 h 12 min of work, none under 5 h 50 min, gap 5.9 %"
	cases := []struct {
		name     string
		terminal bool
		at       []int
		want     string
	}{
		{"a quick search says nothing", false, []int{0, 10, 999}, ""},
		{"a quick search leaves a terminal alone", true, []int{0, 10, 999}, ""},
		{"lines now and then", false, []int{900, 1000, 1100, 5999, 6000}, line + "\n" + line + "\n"},
		{"one line on a terminal, taken away", true, []int{1000, 1100, 1200}, "\r\x1b[K" + line + "\r\x1b[K" + line + "\r\x1b[K"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var b bytes.Buffer
			clock := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
			p := newProgress(&b, func() time.Time { return clock })
			p.terminal = c.terminal
			tell(p, &clock, c.at...)
			assert.Equal(t, c.want, b.String())
		})
	}
}

func TestProgressLine(t *testing.T) {
	assert.Equal(t, "planning: best so far 42 min of work", progressLine(route.Progress{Cost: 42 * time.Minute}))
	long := progressLine(route.Progress{Cost: 9999 * time.Hour, Bound: 1 * time.Minute})
	assert.Less(t, len(long), 80, "a line that wraps cannot be rewritten")
}

func TestCompareLine(t *testing.T) {
	news := advice.Progress{Done: 3, All: 36, What: "every hose 50 ft longer"}
	assert.Equal(t, "comparing, 33 of 36 to go: every hose 50 ft longer", compareLine(news))
	news.What = strings.Repeat("é", 200)
	assert.Len(t, []rune(compareLine(news)), lineWidth)

	var b bytes.Buffer
	start := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	clock := start
	p := newProgress(&b, func() time.Time { return clock })
	p.terminal = true
	p.compare(news)
	assert.Empty(t, b.String(), "a quick comparison says nothing")
	clock = start.Add(2 * time.Second)
	p.compare(advice.Progress{All: 2, What: "spots"})
	p.done()
	assert.Equal(t, "\r\x1b[Kcomparing, 2 of 2 to go: spots\r\x1b[K", b.String())
}

func TestIsTerminal(t *testing.T) {
	assert.False(t, isTerminal(&bytes.Buffer{}))
	f, err := os.Create(t.TempDir() + "/log")
	require.NoError(t, err)
	defer f.Close()
	assert.False(t, isTerminal(f))
}
