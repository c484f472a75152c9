// Package pdfreport holds the tests of all PDFs. Each kind of document has a
// package of its own: person (the page that a person gets), summary (the
// organiser's) and testday (recording sheets, day plan, slips). All draw with kit.
package pdfreport
