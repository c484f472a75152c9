package columns

import (
	"fmt"
	"slices"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// Idle returns the columns whose cells are not used, without our own.
func (cs List) Idle() (all List) {
	for _, c := range cs {
		switch c.Meaning.Role {
		case roster.Unknown, roster.Unscored, roster.Other:
			all = append(all, c)
		}
	}
	return all
}

// mostAsked bounds the columns of a sheet that are asked about, and mostChoices
// the answers offered for one.
const (
	mostAsked   = 50
	mostChoices = 3
	fewestAsked = 3 // cells, where only the values say what it may be
)

// AskUnknown asks about columns that are not recognised but may hold what is
// scored: the words of the header say so, or the values do of something that the
// tests of the sheet take and no column has. What the values contradict is never
// offered.
func (s *Survey) AskUnknown() (asked []roster.Question) {
	wanted := s.wanted()
	for _, c := range s.Columns {
		if c.Meaning.Role != roster.Unknown || c.Asked || len(c.sample) == 0 || len(asked) == mostAsked {
			continue
		}
		var choices []roster.Choice
		offer := func(m roster.Meaning) {
			name := heading.Naming(m)
			taken := slices.ContainsFunc(choices, func(o roster.Choice) bool { return o.Meaning == name })
			if name != "" && !taken && len(choices) < mostChoices && !s.has(m) && s.fits(m, c.sample) {
				choices = append(choices, roster.Choice{Meaning: name})
			}
		}
		if near, ok := heading.Nearest(c.Header); ok {
			h, _ := heading.Match(near)
			offer(h.Meaning)
		}
		related := heading.Related(c.Header)
		for _, m := range wanted {
			if slices.ContainsFunc(related, func(r roster.Meaning) bool { return r.Role == m.Role && r.Input == m.Input }) {
				offer(m)
			}
		}
		for _, m := range related {
			if m.Role != roster.InputData || m.Test != nil || m.Input.Info().Personal {
				offer(m)
			}
		}
		for _, m := range wanted {
			size := m.Role == roster.InputData && m.Input.Info().Personal && m.Input != scoring.SexInput
			if len(c.sample) >= fewestAsked && !size { // any number may be a body mass
				offer(m)
			}
		}
		if len(choices) > 0 {
			asked = append(asked, roster.Question{Sheet: s.Sheet.Name, Cell: grid.At(c.Index, s.Sheet.HeaderRow), Header: c.Header,
				What: mayHold.With(choiceNames(choices)), Choices: choices})
		}
	}
	return asked
}

// has reports whether a column of the sheet has a meaning, or serves as well.
func (s *Survey) has(m roster.Meaning) bool {
	return slices.ContainsFunc(s.Columns, func(c *Column) bool {
		switch {
		case m.Role == roster.Birth && c.Meaning.Input == scoring.Age, m.Input == scoring.Age && c.Meaning.Role == roster.Birth:
			return c.Meaning.Role == roster.InputData || c.Meaning.Role == roster.Birth
		case m.Role == roster.Name:
			return c.Meaning.Role == roster.Name || c.Meaning.Role == roster.GivenName
		}
		return c.Meaning.Role == m.Role && c.Meaning.Input == m.Input && (c.Meaning.Test == nil || c.Meaning.Test == m.Test)
	})
}

// wanted lists what the tests of the sheet take, and who people are.
func (s *Survey) wanted() []roster.Meaning {
	all := []roster.Meaning{{Role: roster.Name}, {Role: roster.InputData, Input: scoring.SexInput}, {Role: roster.Birth}}
	for _, c := range s.Used {
		if t := c.Meaning.Test; t != nil {
			for in := range scoring.InputCount {
				switch {
				case !t.Takes(in) || in == c.Meaning.Input || t.HasResult(in):
				case in.Info().Personal:
					all = append(all, roster.Meaning{Role: roster.InputData, Input: in})
				default:
					all = append(all, roster.Meaning{Role: roster.InputData, Input: in, Test: t})
				}
			}
		}
	}
	return all
}

// fitting is the least share of cells that a meaning must explain, in percent.
const fitting = 90

// fits reports whether the cells of a column can be what a meaning says.
func (s *Survey) fits(m roster.Meaning, sample []cell.Raw) bool {
	c := &Column{Column: roster.Column{Meaning: m}}
	good, all := 0, 0
	different := map[string]bool{}
	for _, r := range sample {
		if cell.SaysNoResult(r) && !m.Input.Info().YesNo {
			continue
		}
		all++
		different[r.Text] = true
		if c.explains(r, s.Facts) {
			good++
		}
	}
	switch {
	case m.Role == roster.Name:
		return all > 0 && len(different)*100 >= all*fitting/2 && good*100 >= all*fitting
	case m.Input == scoring.SexInput && m.Role == roster.InputData && len(different) > 4:
		return false
	}
	return all > 0 && good*100 >= all*fitting
}

// explains reports whether a cell can be what the column means.
func (c *Column) explains(r cell.Raw, f *Facts) bool {
	switch m := c.Meaning; m.Role {
	case roster.Name:
		return header.LooksLikeName(r)
	case roster.Birth, roster.TestDate:
		_, doubt := cell.ParseDate(r, f.DateContext(c))
		return doubt == nil
	case roster.InputData:
		if m.Input == scoring.SexInput {
			sex, doubt := c.Sexes.ParseSex(r)
			return doubt == nil && sex != scoring.SexUnspecified
		}
		values, doubt := c.parseAs(r, m.Input, m.Test, f, 0)
		return doubt == nil && !slices.ContainsFunc(values, func(v Value) bool { return !v.In.CheckRange(v.Q).IsZero() })
	}
	return false
}

// choiceNames lists the known headers of choices with "or".
func choiceNames(choices []roster.Choice) any {
	var names []string
	for _, c := range choices {
		names = append(names, c.Meaning)
	}
	return cell.OrEach(names)
}

// UnknownMeaning returns what is wrong with a new name of a column; empty if
// nothing is.
func UnknownMeaning(known string) string {
	if _, ok := heading.Match(known); ok || heading.Key(known) == header.Ignored {
		return ""
	}
	why := fmt.Sprintf("%q is not a known column", known)
	if near, ok := heading.Nearest(known); ok {
		why += fmt.Sprintf("; did you mean %q?", near)
	}
	return why
}
