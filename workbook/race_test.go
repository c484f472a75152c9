//go:build race

package workbook

// raceAllocates is how many times as much a program with the race detector may
// allocate: that throws pooled buffers away at random, so that they are made
// anew, and makes a string of every few bytes that are compared with one.
const raceAllocates = 3
