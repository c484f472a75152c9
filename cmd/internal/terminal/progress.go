package terminal

import (
	"fmt"
	"io"
	"os"
	"sync"
)

// Progress counts pages on a terminal; elsewhere it writes nothing.
type Progress struct {
	screen      *os.File // nil if nothing is to be shown
	guard       sync.Mutex
	done, total int
}

// NewProgress returns the counter for total pages on w.
func NewProgress(w io.Writer, total int, quiet bool) *Progress {
	if quiet {
		return &Progress{}
	}
	return &Progress{screen: Screen(w), total: total}
}

// Step counts one page; it is safe for concurrent use.
func (p *Progress) Step() {
	if p.screen == nil {
		return
	}
	p.guard.Lock()
	defer p.guard.Unlock()
	p.done++
	fmt.Fprintf(p.screen, "\rpages %d/%d", p.done, p.total)
}

// Finish clears the line.
func (p *Progress) Finish() {
	if p.screen != nil && p.done > 0 {
		fmt.Fprintf(p.screen, "\r%*s\r", len("pages /")+2*len(fmt.Sprint(p.total)), "")
	}
}
