//go:build !windows

package terminal

import "io"

// StayOpen does nothing, because a terminal's window outlives the program.
func StayOpen(io.Writer) {}
