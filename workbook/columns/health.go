package columns

import (
	"iter"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/health"
	"tenback/workbook/roster"
)

// FreeText reports whether cells of a column may be remarks about the person.
func (c *Column) FreeText() bool {
	return c.unread() && !heading.IsAside(c.Header)
}

// Texts returns the columns of free text.
func (cs List) Texts() (all List) {
	for _, c := range cs {
		if c.FreeText() {
			all = append(all, c)
		}
	}
	return all
}

// unread reports whether the cells of a column are not used.
func (c *Column) unread() bool {
	r := c.Meaning.Role
	return r == roster.Unknown || r == roster.Other || r == roster.Unscored
}

// mostlyNo is the share of a column's rows, in percent, from which it answers in
// words; common practice, no source.
const mostlyNo = 60

// SeeWords notes whether most of a health question's cells say no. An empty cell
// between them was forgotten, where it is a no in a column of a few ticks.
func (c *Column) SeeWords(cells iter.Seq[cell.Raw]) {
	if m := c.Meaning; m.Role != roster.InputData || !m.Input.Info().YesNo || m.Input.Permits() || len(c.Alike()) > 1 || c.Repeats {
		return
	}
	nos, all := 0, 0
	for r := range cells {
		all++
		if x, ok := health.Answer(c.Meaning.Input, r); ok && x == scoring.No {
			nos++
		}
	}
	c.Worded = nos >= fewestAsked && nos*100 >= all*mostlyNo
}

// mostHealth is how many answers are offered for a column that asks about health.
const mostHealth = 3

// AskHealth asks about columns that seem to ask about health, by their headers or
// their cells, and are not understood.
func (s *Survey) AskHealth() (asked []roster.Question) {
	for _, c := range s.Columns {
		if !c.unread() || c.told || c.filled == 0 || !heading.AsksHealth(c.Header) && !(c.FreeText() && !heading.IsRemark(c.Header) && answersHealth(c.sample)) {
			continue
		}
		q := roster.Question{Sheet: s.Sheet.Name, Cell: grid.At(c.Index, s.Sheet.HeaderRow), Header: c.Header, What: asksHealth}
		for _, in := range heading.HealthQuestions(c.Header) {
			if name := heading.Naming(roster.Meaning{Role: roster.InputData, Input: in}); len(q.Choices) < mostHealth {
				q.Choices = append(q.Choices, roster.Choice{Meaning: name})
			}
		}
		asked = append(asked, q)
		if c.Asked = true; s.Health == "" {
			s.Health = q.Cell
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
	return dangers > 0 && answers > 0 && dangers+answers >= fewestAsked && (dangers+answers)*100 >= len(sample)*fitting
}
