//go:build !unix

package main

import "os"

// peakMemory returns 0, since only Unix reports it.
func peakMemory(*os.ProcessState) int64 { return 0 }
