package roster

import (
	"cmp"
	"slices"

	"tenback/scoring"
	"tenback/workbook/grid"
)

// Question asks about a column whose header and values do not agree on what it
// holds. Nothing is scored from the column until it is answered.
type Question struct {
	Sheet   string
	Cell    string // of the header
	Header  string
	What    scoring.Said // why it is asked
	Choices []Choice     // at least one; the likeliest first
}

// Choice is a possible answer to a Question.
type Choice struct {
	// Meaning is the known header to read the column by, or "ignore".
	Meaning string
	// Example is what a row of the sheet would then hold; may be zero.
	Example scoring.Said
}

// QuestionsByWeight returns the questions, those of the columns with the most
// cells first.
func (r *Roster) QuestionsByWeight() []Question {
	weight := func(q Question) int {
		if c := r.ColumnAt(q.Sheet, q.Cell); c != nil {
			return c.Filled
		}
		return 0
	}
	all := slices.Clone(r.Questions)
	slices.SortStableFunc(all, func(a, b Question) int { return cmp.Compare(weight(b), weight(a)) })
	return all
}

// ColumnAt returns the column with this header cell; nil if there is none.
func (r *Roster) ColumnAt(sheet, cell string) *Column {
	for _, s := range slices.Concat(r.Sheets, r.Lists) {
		if s.Name != sheet {
			continue
		}
		for i := range s.Columns {
			if grid.At(s.Columns[i].Index, s.HeaderRow) == cell {
				return &s.Columns[i]
			}
		}
	}
	return nil
}
