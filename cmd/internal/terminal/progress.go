package terminal

import (
	"io"

	"github.com/schollz/progressbar/v3"
)

// Progress is a progress bar for pages; it draws nothing outside a terminal.
type Progress struct{ bar *progressbar.ProgressBar }

// NewProgress returns the bar for total pages on w.
func NewProgress(w io.Writer, total int, quiet bool) *Progress {
	screen := Screen(w)
	if quiet || total == 0 || screen == nil {
		return &Progress{}
	}
	return &Progress{progressbar.NewOptions(total,
		progressbar.OptionSetWriter(screen),
		progressbar.OptionSetDescription("pages"),
		progressbar.OptionShowCount(),
		progressbar.OptionSetWidth(30),
		progressbar.OptionClearOnFinish(),
	)}
}

// Step counts one page; it is safe for concurrent use.
func (p *Progress) Step() {
	if p.bar != nil {
		_ = p.bar.Add(1) // a bar that cannot be drawn is no reason to stop
	}
}

// Finish removes the bar.
func (p *Progress) Finish() {
	if p.bar != nil {
		_ = p.bar.Finish()
	}
}
