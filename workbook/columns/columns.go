// Package columns finds out what each column of a sheet holds, by its header, its
// cells and the other columns, and parses its cells.
package columns

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

// Column is a column of a sheet with the evidence of its cells.
type Column struct {
	roster.Column
	key     string          // see headerKey
	start   rowwords.Starts // of the key; empty unless the header begins with two letters
	style   cell.TimeStyle
	Unclear scoring.Said
	Morning bool                     // one of several resting heart rates
	Slot    int                      // index among the columns in use
	Seconds *Column                  // of a Minutes column
	Rest    *Column                  // inches beside the feet, pounds beside the stones, metres beside the laps
	again   []*Column                // later columns of the same meaning
	Repeats bool                     // such a later column
	Attempt int                      // which attempt at the test; 0 for all of them
	Copied  bool                     // the result at its left, in another unit
	Best    bool                     // the best of the attempts
	term    string                   // day, month or term that the header names
	Listed  bool                     // an ID that is only a place in the list
	sample  []cell.Raw               // the first cells of a column that is not used
	filled  int                      // cells of such a column
	Day     time.Time                // of its results, if the header names it
	fits    func(*scoring.Test) bool // of a heart rate without a test
	choices []string                 // known headers that an unclear one may mean
	Titled  bool                     // the test is that of a title
	weak    bool                     // laps of the shuttle run, unless a title says otherwise

	known  string         // the text that the meaning comes from
	told   bool           // by the user
	order  cell.DateOrder // of day and month
	Asked  bool           // its cells wait for an answer
	Worded bool           // see SeeWords

	levels   cell.LevelColumn
	dates    cell.DateColumn
	Sexes    cell.SexColumn
	remarked map[Remark]*Tally
	shuttles lostZeros
}

// List are the columns of a sheet, left to right.
type List []*Column

// Alike returns the column and the later ones of the same meaning.
func (c *Column) Alike() []*Column { return append([]*Column{c}, c.again...) }

// headerKey returns the cached key of the header.
func (c *Column) headerKey() string {
	if c.key == "" {
		c.key = heading.Key(c.Header)
		if h := c.Header; len(h) >= 2 && rowwords.IsLetter(h[0]|0x20) && rowwords.IsLetter(h[1]|0x20) {
			c.start = rowwords.StartsOf(slices.Values([]string{c.key}))
		}
	}
	return c.key
}

// SaysHeader reports whether a text repeats the header.
func (c *Column) SaysHeader(text string) bool {
	key := c.headerKey()
	return (len(c.start) == 0 || !c.start.RuleOut(text)) && heading.Key(text) == key
}

// MeansHeader reports whether a text is another header for the same.
func (c *Column) MeansHeader(text string) bool {
	h, ok := heading.Match(text)
	return ok && h.Role == c.Meaning.Role && h.Input == c.Meaning.Input
}

// With returns the first column of a role, or nil.
func (cs List) With(role roster.Role) *Column {
	for _, c := range cs {
		if c.Meaning.Role == role {
			return c
		}
	}
	return nil
}

// Input returns the first column of an input, or nil.
func (cs List) Input(in scoring.Input) *Column {
	for _, c := range cs {
		if c.Meaning.Role == roster.InputData && c.Meaning.Input == in {
			return c
		}
	}
	return nil
}

// HasResults reports whether some column can hold a test's result.
func (cs List) HasResults() bool {
	return slices.ContainsFunc(cs, func(c *Column) bool { return c.IsResult() })
}

// IsResult reports whether the column can hold a test's result.
func (c *Column) IsResult() bool {
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

// TellOfPeople reports whether some column describes people or how to reach them.
func (cs List) TellOfPeople() bool {
	return slices.ContainsFunc(cs, func(c *Column) bool {
		return c.Meaning.Role == roster.Birth || c.Meaning.Role == roster.Email || c.Meaning.Role == roster.GuardianEmail || c.Meaning.Role == roster.InputData && c.Meaning.Input.Info().Personal
	})
}

// OnlyReach reports whether the columns only say how to reach people. Such a list
// completes others, and is no roster by itself.
func (cs List) OnlyReach() bool {
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

// LeaveOut returns the value of --column that leaves a column out.
func LeaveOut(c *Column) string { return optionColumn(c.Header, header.Ignored) }

// optionColumn returns the value of --column that names a column's meaning.
func optionColumn(head, meaning string) string { return strconv.Quote(head + "=" + meaning) }

// sampleMost is how many cells of a column that is not used are kept, to ask
// about it.
const sampleMost = 40

// AddSample takes a cell of a column that is not used.
func (c *Column) AddSample(r cell.Raw) {
	if c.filled++; len(c.sample) < sampleMost {
		c.sample = append(c.sample, r)
	}
}

// ShowSample notes the first values of a column that is not used.
func (c *Column) ShowSample(to *roster.Column, f *Facts) {
	for _, r := range c.sample {
		to.Show(cell.Display(r, f.Dates.Date1904))
	}
	to.Filled = c.filled
}

// OfTest reports whether the column holds a result of one test, or what goes with
// it.
func (c *Column) OfTest() bool {
	m := c.Meaning
	return m.Test != nil && (m.Role == roster.InputData || m.Role == roster.Minutes)
}

// NoResult reports whether a row of a sheet with results has none.
func (s *Survey) NoResult(row []cell.Raw) bool {
	return s.Columns.HasResults() && !slices.ContainsFunc(s.Used, func(c *Column) bool {
		r := row[c.Slot]
		return c.IsResult() && !r.IsBlank() && !c.SaysNone(r)
	})
}
