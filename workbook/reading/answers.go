package reading

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/grid"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
)

// tellLostSheets reports the answers about sheets that the workbook does not have.
func (rd *reader) tellLostSheets() {
	lost := map[string]string{} // place of the first answer
	var names []string
	note := func(sheet, place string) {
		if slices.ContainsFunc(rd.Book.Sheets(), func(s ooxml.Sheet) bool { return strings.EqualFold(s.Name, sheet) }) {
			return
		}
		rd.Roster.Unused[place] = true
		if lost[sheet] == "" {
			lost[sheet] = place
			names = append(names, sheet)
		}
	}
	for _, a := range rd.Answers.Columns {
		if a.Meaning != "" {
			note(a.Sheet, a.Place)
		}
	}
	for _, a := range rd.Answers.Cells {
		note(a.Sheet, a.Place)
	}
	for _, sheet := range names {
		rd.Roster.Problems = append(rd.Roster.Problems, roster.Problem{Sheet: sheet, What: answerSheetGone.With(lost[sheet]), Fix: columns.AnswerAgain})
	}
}

// useCellAnswers puts answers in place of what was read, where the cell still
// holds what was asked about.
func (sr *sheetReader) useCellAnswers() {
	for _, a := range sr.rd.Answers.AboutCells(sr.Sheet.Name) {
		say := func(read string) {
			sr.rd.Roster.Unused[a.Place] = true
			sr.Tell(roster.Problem{Sheet: sr.Sheet.Name, Cell: a.Cell, Read: read, What: answerCellChanged.With(a.Place, a.Was), Fix: columns.AnswerAgain})
		}
		at, ok := grid.ParseAddress(a.Cell)
		row, found := slices.BinarySearchFunc(sr.body.rows, at.Row, func(r rawRow, number int) int { return r.number - number })
		if !ok || !found {
			say("")
			continue
		}
		rr := sr.rowReader(&sr.body.rows[row])
		rr.readPerson()
		if who := rr.row.Person.Label(); who != a.Person {
			say(who)
			continue
		}
		now, used := "", false
		for _, c := range sr.Used {
			if c.Index != at.Col {
				continue
			}
			raw := &sr.body.rows[row].cells[c.Slot]
			if now = cell.Display(*raw, sr.Facts.Dates.Date1904); now != a.Was {
				continue
			}
			used = true
			if a.Instead != "" {
				*raw = cell.Raw{Kind: cell.Text, Text: a.Instead}
				continue
			}
			if sr.right == nil {
				sr.right = map[grid.Address]bool{}
			}
			sr.right[at] = true
		}
		if !used {
			say(now)
		}
	}
}

// annotate keeps the texts of the cells that values were read from, and which are
// confirmed: by an answer, or by a yes in a column for the whole row.
func (rr *rowReader) annotate() {
	e := &rr.row.Entry
	checked := e.Says(scoring.Checked)
	for _, c := range rr.survey.Used {
		r := rr.raw.cells[c.Slot]
		if m := c.Meaning.Role; r.IsBlank() || m != roster.InputData && m != roster.Result && m != roster.Minutes && m != roster.Birth && m != roster.TestDate {
			continue
		}
		at, text, confirmed := grid.At(c.Index, rr.raw.number), cell.Display(r, rr.facts.Dates.Date1904), checked || rr.confirmed(c)
		e.Annotate(at, text, confirmed)
		if at == rr.row.TestedCell {
			rr.row.TestedRead, rr.row.TestedConfirmed = text, confirmed
		}
	}
}
