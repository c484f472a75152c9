package questions

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"tenback/scoring/order"
	"tenback/templates"
	"tenback/workbook/grid"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// Of returns the questions about a roster with findings, in the words of a
// language.
func Of(r *roster.Roster, findings []roster.Finding, words *templates.Set) *Book {
	q := &asking{words: sheetwords.Of(words), people: map[string]string{}}
	q.known = knownHeaders(q.words)
	for _, s := range slices.Concat(r.Sheets, r.Lists) {
		for i := range s.Rows {
			q.people[s.Name+"!"+grid.At(1, s.Rows[i].Number)] = s.Rows[i].Person.Label()
		}
		q.columns(s, r.Questions, findings)
	}
	// What is asked comes first, and what hides most before the rest.
	slices.SortStableFunc(q.book.Columns, func(a, b Column) int {
		if a.Why == "" || b.Why == "" {
			return order.TrueFirst(a.Why != "", b.Why != "")
		}
		return cmp.Compare(b.filled, a.filled)
	})
	for i := range findings {
		q.cells(r, &findings[i])
	}
	slices.SortStableFunc(q.book.Cells, func(a, b Cell) int { return order.TrueFirst(a.Open(), b.Open()) })
	return &q.book
}

// asking makes a Book.
type asking struct {
	words  *sheetwords.Words
	known  []knownHeader
	people map[string]string // by sheet and row
	book   Book
}

// columns adds the columns of a sheet.
func (q *asking) columns(s *roster.Sheet, asked []roster.Question, findings []roster.Finding) {
	for _, c := range s.Columns {
		if c.Meaning.Role == roster.Ours {
			continue
		}
		line := Column{Sheet: s.Name, Letter: grid.Column(c.Index), Header: c.Header, Values: c.Values, ReadAs: q.meaning(c.Meaning), filled: c.Filled}
		at := grid.At(c.Index, s.HeaderRow)
		var why []string
		for _, a := range asked {
			if a.Sheet == s.Name && a.Cell == at {
				why = append(why, q.question(&a, &line))
			}
		}
		for i := range findings {
			if f := &findings[i]; len(why) == 0 && f.Blocking && f.Sheet == s.Name && f.Cell == at {
				why = append(why, q.problem(&f.Problem))
			}
		}
		line.Why = strings.Join(why, "\n")
		q.book.Columns = append(q.book.Columns, line)
	}
}

// question returns why a column is asked about, with its choices worked out.
func (q *asking) question(a *roster.Question, line *Column) string {
	why := []string{q.words.Said(a.What)}
	for _, c := range a.Choices {
		line.Choices = append(line.Choices, c.Meaning)
		if !c.Example.IsZero() {
			why = append(why, c.Meaning+": "+q.words.Said(c.Example))
		}
	}
	return strings.Join(why, "\n")
}

func (q *asking) problem(p *roster.Problem) string {
	return strings.Join(slices.DeleteFunc([]string{q.words.Said(p.What), q.words.Said(p.Fix)}, func(s string) bool { return s == "" }), "; ")
}

// cells adds each cell of a finding.
func (q *asking) cells(r *roster.Roster, f *roster.Finding) {
	if f.Cell == "" || r.IsWide(f) || f.OtherTest || f.Waits {
		return
	}
	for _, p := range f.All {
		at, _ := grid.ParseAddress(p.Cell)
		c := Cell{Sheet: p.Sheet, Cell: p.Cell, Link: p.Cell, Person: q.people[p.Sheet+"!"+grid.At(1, at.Row)], Was: p.Read,
			What: q.words.Said(p.What), Fix: q.words.Said(p.Fix), MayBeRight: !p.Blocking || p.Doubtful}
		if !p.Answerable {
			c.Cell, c.MayBeRight = strconv.Itoa(at.Row), false
		}
		q.book.Cells = append(q.book.Cells, c)
	}
}

// meaning returns what a column was read as.
func (q *asking) meaning(m roster.Meaning) string {
	if m.Role == roster.Minutes || m.Role == roster.SecondsOf {
		m.Role = roster.InputData
	}
	for _, k := range q.known {
		if k.meaning.Role != m.Role || k.meaning.Input != m.Input || k.meaning.Test != m.Test {
			continue
		}
		if m.UnitGiven {
			return k.text + " (" + q.words.Unit(m.Unit) + ")"
		}
		return k.text
	}
	return q.words.Say(cmp.Or(roleKeys[m.Role], "questions.read.other"), nil)
}

// roleKeys are the words for columns that no known header says.
var roleKeys = map[roster.Role]string{roster.Unknown: "questions.read.unknown"}
