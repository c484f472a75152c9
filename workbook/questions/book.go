// Package questions writes what a roster leaves open into a workbook of
// questions, and reads the answers that a person typed into it.
package questions

import (
	"slices"

	"tenback/workbook/grid"
	"tenback/workbook/roster"
)

// Book holds the questions about a roster, with the answers so far.
type Book struct {
	Columns []Column
	Cells   []Cell
}

// Column is a column of the roster, which is listed whether it is asked about or
// not, because every reading can be corrected.
type Column struct {
	Sheet, Letter, Header string
	Values                []string
	ReadAs                string
	Why                   string   // it is asked; empty if it is not
	Choices               []string // known headers, the likeliest first
	Answer                string   // a known header, or "ignore"
	place                 string   // of the answer
	filled                int      // cells
}

// Cell is a cell that could not be used, or was used with a doubt.
type Cell struct {
	Sheet, Person string
	Cell          string // its address; only the number of the row where no cell takes an answer
	Link          string // the address that is linked to
	Was           string // the text of the cell
	What, Fix     string
	MayBeRight    bool   // the answer may be that the cell is right as it is
	Answer        string // what to read instead
	Right         bool   // the answer is that the cell is right as it is
	place         string // of the answer
}

// Asks reports whether something is asked that is not answered.
func (b *Book) Asks() bool {
	return slices.ContainsFunc(b.Columns, Column.Open) || slices.ContainsFunc(b.Cells, Cell.Open)
}

// Open reports whether a column is asked about and not answered.
func (c Column) Open() bool { return c.Why != "" && c.Answer == "" }

// Open reports whether a cell takes an answer and has none.
func (c Cell) Open() bool {
	_, ok := grid.ParseAddress(c.Cell)
	return ok && !c.answered()
}

// Answered reports whether there is an answer.
func (b *Book) Answered() bool {
	return slices.ContainsFunc(b.Columns, func(c Column) bool { return c.Answer != "" }) || slices.ContainsFunc(b.Cells, Cell.answered)
}

func (c Cell) answered() bool { return c.Answer != "" || c.Right }

// Answers returns the answers for reading the roster.
func (b *Book) Answers() (all roster.Answers) {
	for _, c := range b.Columns {
		all.Columns = append(all.Columns, roster.ColumnAnswer{Sheet: c.Sheet, Column: c.Letter, Header: c.Header, Meaning: c.Answer, Place: c.place})
	}
	for _, c := range b.Cells {
		if c.answered() {
			all.Cells = append(all.Cells, roster.CellAnswer{Sheet: c.Sheet, Cell: c.Cell, Person: c.Person, Was: c.Was, Instead: c.Answer, Place: c.place})
		}
	}
	return all
}

// Keep takes over the answers of an earlier Book. Those whose column or cell is
// not listed now stay as lines of their own, so that no answer is lost.
func (b *Book) Keep(old *Book, unused map[string]bool) {
	for _, was := range old.Columns {
		if was.Answer == "" {
			continue
		}
		at := slices.IndexFunc(b.Columns, func(c Column) bool {
			return c.Sheet == was.Sheet && c.Header == was.Header && (c.Letter == was.Letter || !unused[was.place] && b.headed(c) == 1)
		})
		if at < 0 || unused[was.place] {
			b.Columns = append(b.Columns, was)
			continue
		}
		b.Columns[at].Answer = was.Answer
	}
	for _, was := range old.Cells {
		if !was.answered() {
			continue
		}
		used := !unused[was.place]
		at := slices.IndexFunc(b.Cells, func(c Cell) bool { return used && c.Sheet == was.Sheet && c.Cell == was.Cell && !c.answered() })
		if at < 0 {
			b.Cells = append(b.Cells, was)
			continue
		}
		// The answer was used, and there is something to say of it.
		c := &b.Cells[at]
		c.Person, c.Was, c.Answer, c.Right = was.Person, was.Was, was.Answer, was.Right
	}
}

// headed counts the columns of one header on one sheet.
func (b *Book) headed(like Column) (n int) {
	for _, c := range b.Columns {
		if c.Sheet == like.Sheet && c.Header == like.Header {
			n++
		}
	}
	return n
}

// Forget removes the lines about a person, and the values shown of columns if the
// person's name is one of them. It returns how many lines those were.
func (b *Book) Forget(person func(name string) bool) (gone int) {
	before := len(b.Cells)
	b.Cells = slices.DeleteFunc(b.Cells, func(c Cell) bool { return person(c.Person) })
	gone = before - len(b.Cells)
	for i := range b.Columns {
		if slices.ContainsFunc(b.Columns[i].Values, person) {
			gone++
		}
	}
	if gone > 0 {
		for i := range b.Columns {
			b.Columns[i].Values = nil
		}
	}
	return gone
}
