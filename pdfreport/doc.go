// Package pdfreport draws the page that a person is handed: one to two pages,
// A4 or Letter, from a [scoring.Score] and the words of a [templates.Set].
//
// The way of a page: the parts (headline.go, standing.go, ...) say the words
// and lay them out as blocks of pieces whose heights are known; flow (flow.go)
// shares the blocks out over pages; only then is anything drawn (sheet.go).
// A part that has nothing to say returns no block, and the rest closes up.
//
// # Fonts
//
// Text is drawn with single-byte fonts that were prepared once (fonts/make.py),
// for reading a TrueType font for each document costs many times the page. One
// code page covers the page's words and most European names; others are added
// only to documents whose names need them. What no code page has is drawn as a
// box and named in the [Report].
package pdfreport
