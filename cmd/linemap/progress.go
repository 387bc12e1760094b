package main

import (
	"fmt"
	"io"
	"os"
	"sync"
	"time"

	"linemap/internal/route"
	"linemap/internal/route/advice"
	"linemap/internal/unit"
)

// How a long search is told: nothing in the first moment, then a line that
// changes in place on a terminal, and now and then a line elsewhere.
const (
	patience     = time.Second
	terminalStep = 200 * time.Millisecond
	plainStep    = 5 * time.Second
)

// lineWidth is how much a line on a terminal may hold: what wraps cannot be
// rewritten.
const lineWidth = 79

// progress tells how a search gets on. It may be called from any goroutine.
type progress struct {
	w        io.Writer
	terminal bool
	now      func() time.Time

	mu          sync.Mutex
	start, last time.Time
}

func newProgress(w io.Writer, now func() time.Time) *progress {
	return &progress{w: w, terminal: isTerminal(w), now: now, start: now()}
}

// report takes the news of a search.
func (p *progress) report(news route.Progress) { p.show(progressLine(news)) }

// compare takes the news of plans that are compared.
func (p *progress) compare(news advice.Progress) {
	p.show(compareLine(news))
}

// show shows a line when it is time to.
func (p *progress) show(line string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	now, step := p.now(), plainStep
	if p.terminal {
		step = terminalStep
	}
	if now.Sub(p.start) < patience || !p.last.IsZero() && now.Sub(p.last) < step {
		return
	}
	p.last = now
	if p.terminal {
		fmt.Fprintf(p.w, "\r\x1b[K%s", line)
	} else {
		fmt.Fprintln(p.w, line)
	}
}

// done takes the line away from a terminal.
func (p *progress) done() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.terminal && !p.last.IsZero() {
		fmt.Fprint(p.w, "\r\x1b[K")
	}
}

// progressLine words the news. It speaks of work, since waiting for water is
// only known at the end. It fits a terminal's line.
func progressLine(news route.Progress) string {
	line := "planning: best so far " + unit.Minutes(news.Cost) + " of work"
	if news.Bound > 0 {
		line += fmt.Sprintf(", none under %s, gap %.1f %%", unit.Minutes(news.Bound), 100*news.Gap())
	}
	return line
}

// compareLine words the news of a comparison, in a terminal's line.
func compareLine(news advice.Progress) string {
	line := []rune(fmt.Sprintf("comparing, %d of %d to go: %s", news.All-news.Done, news.All, news.What))
	if len(line) > lineWidth {
		line = append(line[:lineWidth-1], '…')
	}
	return string(line)
}

// isTerminal reports whether w is a terminal that can rewrite a line.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok || os.Getenv("TERM") == "dumb" {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
