package reading

import (
	"slices"
	"strconv"
	"time"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/rowwords"
)

// sheetColumn is a column with the evidence of its cells.
type sheetColumn struct {
	roster.Column
	key     string          // see headerKey
	start   rowwords.Starts // of the key; empty unless the header begins with two letters
	style   cell.TimeStyle
	unclear scoring.Said
	morning bool                     // one of several resting heart rates
	slot    int                      // index in rawRow.cells and among the columns in use
	seconds *sheetColumn             // of a Minutes column
	rest    *sheetColumn             // inches beside the feet, pounds beside the stones, metres beside the laps
	again   []*sheetColumn           // later columns of the same meaning
	repeats bool                     // such a later column
	attempt int                      // which attempt at the test; 0 for all of them
	copied  bool                     // the result at its left, in another unit
	best    bool                     // the best of the attempts
	term    string                   // day, month or term that the header names
	listed  bool                     // an ID that is only a place in the list
	sample  []cell.Raw               // the first cells of a column that is not used
	filled  int                      // cells of such a column
	day     time.Time                // of its results, if the header names it
	fits    func(*scoring.Test) bool // of a heart rate without a test
	choices []string                 // known headers that an unclear one may mean
	titled  bool                     // the test is that of a title
	weak    bool                     // laps of the shuttle run, unless a title says otherwise

	known string         // the text that the meaning comes from
	told  bool           // by the user
	order cell.DateOrder // of day and month
	asked bool           // its cells wait for an answer

	levels   cell.LevelColumn
	dates    cell.DateColumn
	sexes    cell.SexColumn
	remarked map[remark]*tally
	shuttles lostZeros

	statistics []float64 // see statisticsOf
}

// columns are the columns of a sheet, left to right.
type columns []*sheetColumn

// alike returns the column and the later ones of the same meaning.
func (c *sheetColumn) alike() []*sheetColumn { return append([]*sheetColumn{c}, c.again...) }

// headerKey returns the cached key of the header.
func (c *sheetColumn) headerKey() string {
	if c.key == "" {
		c.key = heading.Key(c.Header)
		if h := c.Header; len(h) >= 2 && rowwords.IsLetter(h[0]|0x20) && rowwords.IsLetter(h[1]|0x20) {
			c.start = rowwords.StartsOf(slices.Values([]string{c.key}))
		}
	}
	return c.key
}

// saysHeader reports whether a text repeats the header.
func (c *sheetColumn) saysHeader(text string) bool {
	key := c.headerKey()
	return (len(c.start) == 0 || !c.start.RuleOut(text)) && heading.Key(text) == key
}

// meansHeader reports whether a text is another header for the same.
func (c *sheetColumn) meansHeader(text string) bool {
	h, ok := heading.Match(text)
	return ok && h.Role == c.Meaning.Role && h.Input == c.Meaning.Input
}

// with returns the first column of a role, or nil.
func (cs columns) with(role roster.Role) *sheetColumn {
	for _, c := range cs {
		if c.Meaning.Role == role {
			return c
		}
	}
	return nil
}

// input returns the first column of an input, or nil.
func (cs columns) input(in scoring.Input) *sheetColumn {
	for _, c := range cs {
		if c.Meaning.Role == roster.InputData && c.Meaning.Input == in {
			return c
		}
	}
	return nil
}

// hasResults reports whether some column can hold a test's result.
func (cs columns) hasResults() bool {
	return slices.ContainsFunc(cs, func(c *sheetColumn) bool { return c.isResult() })
}

// isResult reports whether the column can hold a test's result.
func (c *sheetColumn) isResult() bool {
	m := c.Meaning
	switch {
	case m.Role == roster.Result || m.Role == roster.Minutes:
		return true
	case m.Role != roster.InputData || m.Input.Info().Personal:
		return false
	case m.Test != nil:
		return m.Test.HasResult(m.Input)
	}
	return slices.ContainsFunc(fieldtests.All(), func(t *scoring.Test) bool { return t.HasResult(m.Input) })
}

// tellOfPeople reports whether some column describes people or how to reach them.
func (cs columns) tellOfPeople() bool {
	return slices.ContainsFunc(cs, func(c *sheetColumn) bool {
		return c.Meaning.Role == roster.Birth || c.Meaning.Role == roster.Email || c.Meaning.Role == roster.GuardianEmail || c.Meaning.Role == roster.InputData && c.Meaning.Input.Info().Personal
	})
}

// onlyReach reports whether the columns only say how to reach people. Such a list
// completes others, and is no roster by itself.
func (cs columns) onlyReach() bool {
	reaches := false
	for _, c := range cs {
		switch r := c.Meaning.Role; r {
		case roster.Email, roster.GuardianEmail, roster.PagePassword:
			reaches = true
		case roster.Unknown, roster.Group, roster.TestDate, roster.Other, roster.Audience, roster.Language:
		default:
			if !r.IsPerson() {
				return false
			}
		}
	}
	return reaches
}

// leaveOut returns the value of --column that leaves a column out.
func leaveOut(c *sheetColumn) string { return optionColumn(c.Header, header.Ignored) }

// optionColumn returns the value of --column that names a column's meaning.
func optionColumn(head, meaning string) string { return strconv.Quote(head + "=" + meaning) }
