package evidence

import (
	"fmt"
	"strings"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// headerOf returns the known header of an input.
func headerOf(in scoring.Input) string {
	name := in.Info().Name
	return strings.ToUpper(name[:1]) + name[1:]
}

// base returns the known header for what the column holds, without a unit.
func (c *Column) base() string {
	m := c.Meaning
	switch {
	case m.Role == roster.Birth:
		return "Date of birth"
	case m.Role == roster.TestDate:
		return "Test date"
	case m.Role == roster.Result:
		return "Time"
	case m.Distance > 0:
		return fmt.Sprintf("%g m run", m.Distance)
	case m.Test == nil:
		return headerOf(m.Input)
	}
	header := scoring.Header{Test: m.Test, Input: m.Input}.String()
	for _, also := range m.Test.Also {
		if also.Input == m.Input {
			header = also.Column
		}
	}
	header, _, _ = strings.Cut(header, " (")
	return header
}

// qualified returns the known header with what is in its parentheses.
func (c *Column) qualified(says string) string {
	return c.base() + " (" + says + ")"
}
