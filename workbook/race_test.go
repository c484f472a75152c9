//go:build race

package workbook

// raceAllocates is how many times as much a program with the race detector may
// allocate: that throws pooled buffers away at random, so that they are made
// anew.
const raceAllocates = 2
