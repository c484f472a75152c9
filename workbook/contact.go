package workbook

import (
	"strings"

	"tenback/workbook/cell"
	"tenback/workbook/grid"
)

// Contact is how a person can be reached, as it was typed: whoever uses it
// checks it.
type Contact struct {
	Email    Typed
	Guardian Typed // e-mail address of a parent or guardian
	Password Typed // of the person's page
}

// Typed is a text and the cell that holds it, such as "Class 8B!F7"; both are
// empty if it is not given.
type Typed struct {
	Text, Cell string
	// Other is a cell of the same person that says something else; empty if
	// there is none.
	Other string
	// IsDate tells that the spreadsheet took the text for a date: Text is that
	// date, and nobody knows how it was typed.
	IsDate bool
}

// also takes in what another cell says of the same.
func (t *Typed) also(other Typed) {
	switch {
	case other.Text == "":
	case t.Text == "":
		*t = other
	case t.Other != "":
	case t.Text != other.Text:
		t.Other = other.Cell
	default:
		t.Other = other.Other
	}
}

// Reached is the person's contact; the zero Contact if nothing of it is given.
func (p *Person) Reached() Contact {
	if p.Contact == nil {
		return Contact{}
	}
	return *p.Contact
}

// reachedAlso takes in what another row says. Rows share a contact, so it is
// not changed in place.
func (p *Person) reachedAlso(other *Contact) {
	if other == nil {
		return
	}
	c := p.Reached()
	c.Email.also(other.Email)
	c.Guardian.also(other.Guardian)
	c.Password.also(other.Password)
	p.Contact = &c
}

// readContact reads how the person can be reached. A number counts as it is
// shown, with its leading zeros.
func (sr *sheetReader) readContact(raw *rawRow, row *Row, c *sheetColumn) {
	r := raw.cells[c.slot]
	typed := Typed{Text: cell.Label(r), Cell: sr.sheet.Name + "!" + grid.At(c.Index, raw.number),
		IsDate: r.Kind == cell.ISODate || r.Kind == cell.Number && r.Format.IsTemporal()}
	switch {
	case typed.IsDate:
		typed.Text = cell.Display(r, sr.rd.book.Date1904())
	case c.Meaning.Role == PagePassword && r.Kind == cell.Text:
		typed.Text = strings.TrimSpace(r.Text) // two blanks within are two
	}
	if typed.Text == "" {
		return
	}
	var said Contact
	switch c.Meaning.Role {
	case Email:
		said.Email = typed
	case GuardianEmail:
		said.Guardian = typed
	case PagePassword:
		said.Password = typed
	}
	row.Person.reachedAlso(&said)
}
