package main

import (
	"fmt"
	"io"
	"strings"
	"time"
)

// bar draws how far a long piece of work is, on a terminal only.
type bar struct {
	w     io.Writer
	what  string
	last  time.Time
	begun bool
}

// bar returns a bar, or nil where nobody watches.
func (a *app) bar(what string) *bar {
	if !a.isTerm {
		return nil
	}
	return &bar{w: a.err, what: what}
}

// show draws; a nil bar shows nothing.
func (b *bar) show(done, all int) {
	if b == nil || all <= 0 || done < all && time.Since(b.last) < 100*time.Millisecond {
		return
	}
	const wide = 30
	n := wide * done / all
	fmt.Fprintf(b.w, "\r%s %s%s %3d %%", b.what, strings.Repeat("#", n), strings.Repeat(".", wide-n), 100*done/all)
	b.last, b.begun = time.Now(), true
}

// stage draws how far one stage of several is.
func (b *bar) stage(name string, share float64) {
	if b == nil {
		return
	}
	if name != b.what {
		b.clear()
		b.what = name
	}
	b.show(int(1000*share), 1000)
}

// clear takes the bar off the screen.
func (b *bar) clear() {
	if b != nil && b.begun {
		fmt.Fprintf(b.w, "\r%s\r", strings.Repeat(" ", len(b.what)+40))
	}
}
