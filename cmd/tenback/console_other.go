//go:build !windows

package main

import "io"

// stayOpen does nothing: a terminal's window outlives the program.
func stayOpen(io.Writer) {}
