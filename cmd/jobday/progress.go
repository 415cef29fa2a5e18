package main

import (
	"fmt"
	"strings"
	"sync"
	"time"
)

// A progress shows a bar on a terminal that has waited longer than a second, and nothing else.
type progress struct {
	sys   *system
	begun time.Time

	mu    sync.Mutex
	drawn time.Time // when the bar was last drawn; zero for never
}

const (
	patience = time.Second
	redraw   = 100 * time.Millisecond
	barWidth = 30
)

func newProgress(sys *system) *progress { return &progress{sys: sys, begun: sys.now()} }

// show is told of every note that was read; it may be called from several goroutines.
func (p *progress) show(done, total int) {
	if !p.sys.errIsShown {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	now := p.sys.now()
	if now.Sub(p.begun) < patience || now.Sub(p.drawn) < redraw {
		return
	}
	p.drawn = now
	full := barWidth * done / max(total, 1)
	fmt.Fprintf(p.sys.err, "\rreading notes [%s%s] %d of %d",
		strings.Repeat("#", full), strings.Repeat(".", barWidth-full), done, total)
}

// clear takes the bar off the terminal again.
func (p *progress) clear() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if !p.drawn.IsZero() {
		fmt.Fprint(p.sys.err, "\r\x1b[K")
	}
}
