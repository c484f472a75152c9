package heading

import (
	"slices"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// piece is a word or a phrase of a header with what it may be.
type piece struct {
	sense
	raw    string
	at     int // of its first token
	inside bool
	part   bool             // of a compound word
	amount scoring.Quantity // of a number with a unit
}

func (p *piece) is(c class) bool { return p.class&c != 0 }

// holds reports whether a column of that meaning may be called so.
func (p *piece) holds(m roster.Meaning) bool { return slices.Contains(p.meanings, m) }
