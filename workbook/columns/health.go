package columns

import (
	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/health"
	"tenback/workbook/roster"
)

// FreeText reports whether cells of a column may be remarks about the person.
func (c *Column) FreeText() bool {
	switch c.Meaning.Role {
	case roster.Unknown, roster.Unscored:
		return true
	case roster.Other:
		return heading.IsRemark(c.Header)
	}
	return false
}

// mostHealth is how many answers are offered for a column that asks about health.
const mostHealth = 3

// AskHealth asks about columns that seem to ask about health, by their headers or
// their cells, and are not understood.
func (s *Survey) AskHealth() (asked []roster.Question) {
	for _, c := range s.Columns {
		unread := c.Meaning.Role == roster.Unknown || c.Meaning.Role == roster.Other || c.Meaning.Role == roster.Unscored
		if !unread || c.told || c.filled == 0 || !heading.AsksHealth(c.Header) && !(c.Meaning.Role == roster.Unknown && answersHealth(c.sample)) {
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
	return dangers > 0 && dangers+answers >= fewestAsked && (dangers+answers)*100 >= len(sample)*fitting
}
