package workbook

import (
	"strings"

	"tenback/workbook/cell"
	"tenback/workbook/grid"
)

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
	row.Person.ReachedAlso(&said)
}
