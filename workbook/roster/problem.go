package roster

import (
	"fmt"

	"tenback/scoring"
)

// Problem is something in the workbook that could not be used, or was used
// with a doubt.
type Problem struct {
	Sheet string
	Cell  string       // empty for a whole sheet
	Read  string       // the text of the cell
	What  scoring.Said // why it can't be used
	Fix   scoring.Said // what to type instead; may be zero
	// Blocking is set where a score may be missing because of the problem;
	// otherwise it is a remark.
	Blocking bool
	// OtherTest is set on what is blocking where no cell is wrong: the person
	// needs another kind of test.
	OtherTest bool
	// Answerable is set where Read is all that the cell holds, and something else can
	// be read instead.
	Answerable bool
	// Doubtful is set where the value is odd and may be right as it is.
	Doubtful bool
	// Waits is set on the cells of a column that a [Question] asks about: no cell is
	// wrong, and one answer serves all.
	Waits bool
	// OnlyUntested is set where nothing has been entered for the person yet.
	OnlyUntested bool
}

// Where returns the cell with its sheet, or the sheet alone.
func (p Problem) Where() string {
	if p.Cell == "" {
		return p.Sheet
	}
	return p.Sheet + "!" + p.Cell
}

func (p Problem) String() string {
	s := p.Where()
	if p.Read != "" {
		s += fmt.Sprintf(" (%q)", p.Read)
	}
	s += ": " + p.What.String()
	if !p.Fix.IsZero() {
		s += "; " + p.Fix.String()
	}
	return s
}
