package columns

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// Speeds in km/h: nearly all of a group that walks are below the first, most of one
// that runs above the second, since a run has walking breaks. Common practice, no
// source.
const (
	walksBelow, runsAbove = 7.5, 8.5
	nearlyAll, most       = 0.9, 0.75
)

// judgeChoices decides what a header that may be of several tests means, by the
// title or the speed of the first rows.
func (s *settler) judgeChoices() {
	for _, c := range s.columns {
		if len(c.choices) > 0 {
			s.choose(c)
		}
	}
}

// askChoices asks about the headers that are still open, unless another column
// holds the result of that test.
func (s *settler) askChoices() {
	for _, c := range s.columns {
		if len(c.choices) == 0 {
			continue
		}
		q := roster.Question{Sheet: s.sheet.Name, Cell: s.headerCell(c), Header: c.Header, What: c.Unclear}
		for _, choice := range c.choices {
			h, _ := heading.Match(choice)
			if slices.ContainsFunc(s.columns, func(d *Column) bool { return h.Test != nil && d.Meaning.Test == h.Test && d.IsResult() }) {
				q.Choices = nil
				break
			}
			q.Choices = append(q.Choices, roster.Choice{Meaning: choice})
		}
		if len(q.Choices) > 0 {
			s.asked = append(s.asked, q)
		}
	}
}

// choose reads a column by one of the headers it may mean.
func (s *settler) choose(c *Column) {
	gait := ""
	walked, ran, n := 0.0, 0.0, 0.0
	for _, seconds := range s.times(c) {
		n++
		switch speed := c.Meaning.Distance * 3.6 / seconds; {
		case speed < walksBelow:
			walked++
		case speed > runsAbove:
			ran++
		}
	}
	switch {
	case c.Meaning.Distance == 0 || n == 0:
	case walked >= nearlyAll*n:
		gait = "walk"
	case ran >= most*n:
		gait = "run"
	}
	for _, choice := range c.choices {
		h, ok := heading.Match(choice)
		if !ok || h.Test == nil || h.LapMetres > 0 {
			continue
		}
		titled := h.Test == s.named.Test
		if titled || gait != "" && strings.HasSuffix(choice, gait) {
			c.Meaning, c.Unclear, c.choices = h.Meaning, scoring.Said{}, nil
			if !titled {
				s.say(c, false, FixReadAsResult, readBySpeed.With(h.Test))
			}
			return
		}
	}
}

// times returns the times in seconds in the first rows of a column.
func (s *settler) times(c *Column) (all []float64) {
	for _, row := range s.body {
		for _, r := range row.Cells {
			if r.Col != c.Index {
				continue
			}
			t, doubt := cell.ParseTime(r.Raw, cell.TimeContext{Style: c.style})
			if doubt == nil {
				all = append(all, t.Duration.Seconds())
			}
		}
	}
	return all
}

// weigh leaves out columns whose first values contradict the header: a Result that
// is only PASS or FAIL, and an ID such as a grade of badge, which people share.
func (s *settler) weigh() {
	for _, c := range s.columns {
		var texts []string
		digits := false
		for _, row := range s.body {
			for _, r := range row.Cells {
				if r.Col == c.Index && !r.IsBlank() {
					texts = append(texts, cell.Label(r.Raw))
					digits = digits || strings.ContainsAny(r.Text, "0123456789")
				}
			}
		}
		n := len(texts)
		slices.Sort(texts)
		shared := n - len(slices.Compact(texts))
		switch {
		case n < fewestAsked:
		case c.Meaning.Role == roster.Result && !digits:
			c.Meaning = roster.Meaning{Role: roster.Other}
		case c.Meaning.Role == roster.ID && 2*shared > n && n >= 2*fewestAsked && s.columns.named():
			c.Meaning = roster.Meaning{}
		}
	}
}

// named reports whether some column has names.
func (cs List) named() bool {
	return cs.With(roster.Name) != nil || cs.With(roster.FamilyName) != nil || cs.With(roster.GivenName) != nil
}
