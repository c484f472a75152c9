package reading

import (
	"strings"

	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/roster"
)

// readContact reads how the person can be reached. A number counts as it is
// shown, with its leading zeros.
func (sr *sheetReader) readContact(raw *rawRow, row *roster.Row, c *sheetColumn) {
	r := raw.cells[c.slot]
	typed := roster.Typed{Text: cell.Label(r), Cell: sr.sheet.Name + "!" + grid.At(c.Index, raw.number),
		IsDate: r.Kind == cell.ISODate || r.Kind == cell.Number && r.Format.IsTemporal()}
	switch {
	case typed.IsDate:
		typed.Text = cell.Display(r, sr.rd.book.Date1904())
	case c.Meaning.Role == roster.PagePassword && r.Kind == cell.Text:
		typed.Text = strings.TrimSpace(r.Text) // two blanks within are two
	}
	if typed.Text == "" {
		return
	}
	var said roster.Contact
	switch c.Meaning.Role {
	case roster.Email:
		said.Email = typed
	case roster.GuardianEmail:
		said.Guardian = typed
	case roster.PagePassword:
		said.Password = typed
	}
	row.Person.ReachedAlso(&said)
}
