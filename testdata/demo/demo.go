// Package demo holds the demonstration rosters: the invented town of Quillhaven
// with a school class, an office and a running squad, every kind of field test,
// and some rows that went wrong. The files are fixed, so a new field test changes
// none of these people.
package demo

import _ "embed"

// The workbooks as they are written by tenback demo.
var (
	//go:embed quillhaven.xlsx
	Roster []byte
	// Earlier holds the two seasons before: some people had left since, others had
	// not come yet, and one date of birth has day and month exchanged.
	//go:embed quillhaven-earlier.xlsx
	Earlier []byte
)
