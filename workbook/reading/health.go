package reading

import (
	"slices"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/grid"
	"tenback/workbook/health"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
)

// readAnswer reads the answers to a health question, of all columns that ask it. The
// most careful one counts. What else they speak of is set as an answer that is not
// clear.
func (rr *rowReader) readAnswer(first *columns.Column) {
	in := first.Meaning.Input
	for _, c := range first.Alike() {
		r := rr.raw.cells[c.Slot]
		x, ok := health.Answer(in, r)
		if !ok {
			if c.Worded && !rr.survey.NoResult(rr.raw.cells) {
				rr.say(c, notAnswered, columns.AskYesNo)
			}
			continue
		}
		at := grid.At(c.Index, rr.raw.number)
		switch {
		case x != scoring.Unclear:
		case in.Permits():
			rr.say(c, unclearLeave, columns.AskYesNo)
		default:
			rr.block(c, columns.UnclearAnswer, columns.AskYesNo)
		}
		had, answered := rr.row.Entry.Get(in)
		if !answered || in.Permits() == (x < had.Amount) && x != had.Amount {
			rr.row.Entry.Set(in, scoring.Q(x, scoring.NoUnit), at)
		}
		if r.Kind == cell.Text && in != scoring.FamilySuddenDeath {
			for _, d := range health.Dangers(r.Text, false) {
				if d.Kind != in && !in.Permits() {
					rr.row.Entry.Suspect(d.Kind, d.Past, at)
				}
			}
		}
	}
}

// notes returns what the free texts of a row speak of.
func (t *table) notes(number int, cells []ooxml.Cell) (all []scoring.DangerNote) {
	at := 0
	for _, c := range t.texts {
		for at < len(cells) && cells[at].Col < c.Index {
			at++
		}
		if at == len(cells) {
			break
		}
		if r := cells[at]; r.Col == c.Index && r.Kind == cell.Text {
			all = append(all, notesIn(r.Raw, grid.At(c.Index, number), false)...)
		}
	}
	return all
}

func notesIn(r cell.Raw, at string, inResult bool) (all []scoring.DangerNote) {
	for _, d := range health.Dangers(r.Text, inResult) {
		all = append(all, scoring.DangerNote{Cell: at, Text: cell.Display(r, false), Kind: d.Kind, DuringTest: d.DuringTest, Past: d.Past})
	}
	return all
}

// readNotes adds what the free texts and the results of the row speak of.
func (rr *rowReader) readNotes() {
	e := &rr.row.Entry
	e.Notes = rr.raw.notes
	for _, c := range rr.survey.Used {
		r, at := rr.raw.cells[c.Slot], grid.At(c.Index, rr.raw.number)
		switch {
		case r.Kind != cell.Text || !cell.HasLetters(r.Text):
		case c.IsResult():
			e.Notes = append(e.Notes, notesIn(r, at, true)...)
		case c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.SystolicBP && cell.IsWords(r):
			if x, ok := health.Answer(scoring.KnownDisease, r); ok && x != scoring.No {
				e.Suspect(scoring.KnownDisease, false, at) // "high"
			}
		}
	}
	for i, n := range e.Notes {
		answer, _ := e.Get(n.Kind)
		e.Suspect(n.Kind, n.Past, n.Cell)
		if answer.Amount == scoring.Yes && !n.DuringTest || i > 0 && e.Notes[i-1].Cell == n.Cell {
			continue // known already, or said
		}
		what, fix := speaksOfDanger, talkFirst
		if slices.ContainsFunc(e.Notes[i:], func(m scoring.DangerNote) bool { return m.Cell == n.Cell && m.DuringTest }) {
			what = dangerInTest
		}
		if rr.bound.Admit() {
			rr.problems = append(rr.problems, roster.Problem{Sheet: rr.sheet.Name, Cell: n.Cell, Read: n.Text, What: what, Fix: fix})
		}
	}
}
