package reading

import (
	"slices"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// idle returns the columns whose cells are not used, without our own.
func (cs columns) idle() (all columns) {
	for _, c := range cs {
		switch c.Meaning.Role {
		case roster.Unknown, roster.Unscored, roster.Other:
			all = append(all, c)
		}
	}
	return all
}

// showValues notes the first values of each column of the sheet.
func (sr *sheetReader) showValues() {
	for i, c := range sr.columns {
		to := &sr.sheet.Columns[i]
		show := func(r cell.Raw) { to.Show(cell.Display(r, sr.facts.dates.Date1904)) }
		for _, r := range c.sample {
			show(r)
		}
		to.Filled = c.filled
		if !slices.Contains(sr.used, c) {
			continue
		}
		for at := range sr.body.rows {
			if r := sr.body.rows[at].cells[c.slot]; !r.IsBlank() {
				if to.Filled++; len(to.Values) < roster.ValuesShown {
					show(r)
				}
			}
		}
	}
}

// mostAsked bounds the columns of a sheet that are asked about, and mostChoices
// the answers offered for one.
const (
	mostAsked   = 50
	mostChoices = 3
	fewestAsked = 3 // cells, where only the values say what it may be
)

// askUnknown asks about columns that are not recognised but may hold what is
// scored: the words of the header say so, or the values do of something that the
// tests of the sheet take and no column has. What the values contradict is never
// offered.
func (sr *sheetReader) askUnknown() (asked []roster.Question) {
	wanted := sr.wanted()
	for _, c := range sr.columns {
		if c.Meaning.Role != roster.Unknown || c.asked || len(c.sample) == 0 || len(asked) == mostAsked {
			continue
		}
		var choices []roster.Choice
		offer := func(m roster.Meaning) {
			name := heading.Naming(m)
			taken := slices.ContainsFunc(choices, func(o roster.Choice) bool { return o.Meaning == name })
			if name != "" && !taken && len(choices) < mostChoices && !sr.has(m) && sr.fits(m, c.sample) {
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
			asked = append(asked, roster.Question{Sheet: sr.sheet.Name, Cell: grid.At(c.Index, sr.sheet.HeaderRow), Header: c.Header,
				What: mayHold.With(choiceNames(choices)), Choices: choices})
		}
	}
	return asked
}

// has reports whether a column of the sheet has a meaning, or serves as well.
func (sr *sheetReader) has(m roster.Meaning) bool {
	return slices.ContainsFunc(sr.columns, func(c *sheetColumn) bool {
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
func (sr *sheetReader) wanted() []roster.Meaning {
	all := []roster.Meaning{{Role: roster.Name}, {Role: roster.InputData, Input: scoring.SexInput}, {Role: roster.Birth}}
	for _, c := range sr.used {
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
func (sr *sheetReader) fits(m roster.Meaning, sample []cell.Raw) bool {
	c := &sheetColumn{Column: roster.Column{Meaning: m}}
	row := rawRow{cells: make([]cell.Raw, 1)}
	cr := cellReader{facts: sr.facts, sheet: sr.sheet, raw: &row}
	good, all := 0, 0
	different := map[string]bool{}
	for _, r := range sample {
		if cell.SaysNoResult(r) && !m.Input.Info().YesNo {
			continue
		}
		all++
		different[r.Text] = true
		if row.cells[0] = r; cr.explains(c, m) {
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

// explains reports whether the one cell of a row can be what a meaning says.
func (cr *cellReader) explains(c *sheetColumn, m roster.Meaning) bool {
	r := cr.raw.cells[0]
	switch m.Role {
	case roster.Name:
		return header.LooksLikeName(r)
	case roster.Birth, roster.TestDate:
		_, doubt := cell.ParseDate(r, cr.facts.dateContext(c))
		return doubt == nil
	case roster.InputData:
		if m.Input == scoring.SexInput {
			sex, doubt := c.sexes.ParseSex(r)
			return doubt == nil && sex != scoring.SexUnspecified
		}
		values, doubt := cr.parseAs(c, m.Input, m.Test)
		return doubt == nil && !slices.ContainsFunc(values, func(v value) bool { return !v.in.CheckRange(v.q).IsZero() })
	}
	return false
}

// choiceNames lists the known headers of choices with "or".
func choiceNames(choices []roster.Choice) any {
	var names []string
	for _, c := range choices {
		names = append(names, c.Meaning)
	}
	return orEach(names)
}
