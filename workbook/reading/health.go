package reading

import (
	"slices"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/health"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
)

// readAnswer reads the answers to a health question, of all columns that ask it. The
// most careful one counts. What else they speak of is set as an answer that is not
// clear.
func (rr *rowReader) readAnswer(first *sheetColumn) {
	in := first.Meaning.Input
	for _, c := range first.alike() {
		r := rr.raw.cells[c.slot]
		x, ok := health.Answer(in, r)
		if !ok {
			continue
		}
		at := grid.At(c.Index, rr.raw.number)
		switch {
		case x != scoring.Unclear:
		case in.Permits():
			rr.say(c, unclearLeave, askYesNo)
		default:
			rr.block(c, unclearAnswer, askYesNo)
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

// freeText reports whether cells of a column may be remarks about the person.
func (c *sheetColumn) freeText() bool {
	switch c.Meaning.Role {
	case roster.Unknown, roster.Unscored:
		return true
	case roster.Other:
		return heading.IsRemark(c.Header)
	}
	return false
}

// notes returns what the free texts of a row speak of.
func (t *table) notes(number int, cells []ooxml.Cell) (all []scoring.DangerNote) {
	at := 0
	for _, c := range t.idle {
		for at < len(cells) && cells[at].Col < c.Index {
			at++
		}
		if at == len(cells) {
			break
		}
		if r := cells[at]; r.Col == c.Index && r.Kind == cell.Text && c.freeText() {
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
	for _, c := range rr.survey.used {
		if r := rr.raw.cells[c.slot]; r.Kind == cell.Text && c.isResult() && cell.HasLetters(r.Text) {
			e.Notes = append(e.Notes, notesIn(r, grid.At(c.Index, rr.raw.number), true)...)
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
		if rr.facts.bound.Admit() {
			rr.problems = append(rr.problems, roster.Problem{Sheet: rr.sheet.Name, Cell: n.Cell, Read: n.Text, What: what, Fix: fix})
		}
	}
}

// mostHealth is how many answers are offered for a column that asks about health.
const mostHealth = 3

// askHealth asks about columns that seem to ask about health, by their headers or
// their cells, and are not understood.
func (sr *sheetReader) askHealth() (asked []roster.Question) {
	for _, c := range sr.columns {
		unread := c.Meaning.Role == roster.Unknown || c.Meaning.Role == roster.Other || c.Meaning.Role == roster.Unscored
		if !unread || c.told || c.filled == 0 || !heading.AsksHealth(c.Header) && !(c.Meaning.Role == roster.Unknown && answersHealth(c.sample)) {
			continue
		}
		q := roster.Question{Sheet: sr.sheet.Name, Cell: grid.At(c.Index, sr.sheet.HeaderRow), Header: c.Header, What: asksHealth}
		for _, in := range heading.HealthQuestions(c.Header) {
			if name := heading.Naming(roster.Meaning{Role: roster.InputData, Input: in}); len(q.Choices) < mostHealth {
				q.Choices = append(q.Choices, roster.Choice{Meaning: name})
			}
		}
		asked = append(asked, q)
		if c.asked = true; sr.health == "" {
			sr.health = q.Cell
		}
	}
	return asked
}

// answersHealth reports whether cells look like answers to a health question: some
// speak of a danger, and the others are yes or no.
func answersHealth(sample []cell.Raw) bool {
	dangers, answers := 0, 0
	for _, r := range sample {
		switch x, ok := health.Answer(scoring.KnownDisease, r); {
		case r.Kind == cell.Text && len(health.Dangers(r.Text, false)) > 0:
			dangers++
		case !ok || x != scoring.Unclear:
			answers++
		}
	}
	return dangers > 0 && dangers+answers >= fewestAsked && (dangers+answers)*100 >= len(sample)*fitting
}
