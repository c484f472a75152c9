package header

import (
	"slices"
	"unicode"

	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
)

// Unheaded is the cause of an error where no header with a name was found. It
// holds the rows that look most like headers, to ask about their columns.
type Unheaded struct{ roster.Roster }

func (u *Unheaded) Error() string { return "no column is recognised as a name or an ID" }

// mostUnheaded bounds the sheets of Unheaded, and widestUnheaded their columns.
const (
	mostUnheaded   = 10
	widestUnheaded = 100
)

// Note notes the row of a sheet with the most texts, if there is something below it.
func (u *Unheaded) Note(ns Names, sheet string, rows []Row, date1904 bool) {
	best, most := -1, 1
	for i := range rows[:max(0, len(rows)-1)] {
		texts := 0
		for _, c := range rows[i].Cells {
			if c.Kind == cell.Text {
				texts++
			}
		}
		if texts > most {
			best, most = i, texts
		}
	}
	if best < 0 || len(u.Sheets) == mostUnheaded {
		return
	}
	s := &roster.Sheet{Name: sheet, HeaderRow: rows[best].Number}
	for _, h := range rows[best].Cells[:min(len(rows[best].Cells), widestUnheaded)] {
		if h.Kind != cell.Text || h.IsBlank() {
			continue
		}
		c := roster.Column{Index: h.Col, Header: cell.Label(h.Raw)}
		found, known := ns.Match(c.Header)
		c.Meaning = found.Meaning
		names := 0
		for _, below := range rows[best+1:] {
			at, ok := slices.BinarySearchFunc(below.Cells, h.Col, func(c ooxml.Cell, col int) int { return c.Col - col })
			if !ok || below.Cells[at].IsBlank() {
				continue
			}
			c.Filled++
			if LooksLikeName(below.Cells[at].Raw) {
				names++
			}
			c.Show(cell.Display(below.Cells[at].Raw, date1904))
		}
		if !known && names > 0 && names == c.Filled {
			u.Questions = append(u.Questions, roster.Question{Sheet: sheet, Cell: grid.At(h.Col, s.HeaderRow), Header: c.Header, What: noNameKnown,
				Choices: []roster.Choice{{Meaning: heading.Naming(roster.Meaning{Role: roster.Name})}}})
		}
		s.Columns = append(s.Columns, c)
	}
	u.Sheets = append(u.Sheets, s)
}

var noNameKnown = phrases.Say("no-name-known", "no column is recognised as a name or an ID; this one looks like names")

// LooksLikeName reports whether a cell may be the name of a person.
func LooksLikeName(r cell.Raw) bool {
	text := cell.Label(r)
	return r.Kind == cell.Text && cell.HasLetters(text) && len([]rune(text)) >= 3 &&
		!slices.ContainsFunc([]rune(text), func(c rune) bool { return unicode.IsDigit(c) || c == '@' || c == '=' })
}
