package main

import (
	"io"

	"github.com/schollz/progressbar/v3"
)

// progress shows how far the pages are, on a terminal only.
type progress struct{ bar *progressbar.ProgressBar }

func newProgress(w io.Writer, total int, quiet bool) *progress {
	screen := screenOf(w)
	if quiet || total == 0 || screen == nil {
		return &progress{}
	}
	return &progress{progressbar.NewOptions(total,
		progressbar.OptionSetWriter(screen),
		progressbar.OptionSetDescription("pages"),
		progressbar.OptionShowCount(),
		progressbar.OptionSetWidth(30),
		progressbar.OptionClearOnFinish(),
	)}
}

// step counts one page; it may be called from several goroutines.
func (p *progress) step() {
	if p.bar != nil {
		_ = p.bar.Add(1) // a bar that cannot be drawn is no reason to stop
	}
}

func (p *progress) finish() {
	if p.bar != nil {
		_ = p.bar.Finish()
	}
}
