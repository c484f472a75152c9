package reading

import (
	"strings"

	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/grid"
	"tenback/workbook/roster"
)

// readContact reads how to reach the person. A number counts as shown, with its
// leading zeros.
func (rr *rowReader) readContact(c *columns.Column) {
	r := rr.raw.cells[c.Slot]
	typed := roster.Typed{Text: cell.Label(r), Cell: rr.sheet.Name + "!" + grid.At(c.Index, rr.raw.number),
		IsDate: r.Kind == cell.ISODate || r.Kind == cell.Number && r.Format.IsTemporal()}
	switch {
	case typed.IsDate:
		typed.Text = cell.Display(r, rr.facts.Dates.Date1904)
	case c.Meaning.Role == roster.PagePassword && r.Kind == cell.Text:
		typed.Text = strings.TrimSpace(r.Text) // inner blanks count
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
	rr.row.Person.ReachedAlso(&said)
}

// readWish reads the audience or the language of the person's page.
func (rr *rowReader) readWish(c *columns.Column, text string) {
	if cell.SaysNoResult(rr.raw.cells[c.Slot]) {
		return
	}
	switch c.Meaning.Role {
	case roster.Audience:
		setting, err := roster.ParseSetting(text)
		if err != nil {
			rr.say(c, noSuchReader.With(scoring.Quoted(text)), fixReader)
			return
		}
		rr.row.Person.Audience = setting
	case roster.Language:
		if rr.opt.Language == nil {
			return
		}
		lang, err := rr.opt.Language(text)
		if err != nil {
			rr.say(c, noSuchTongue.With(scoring.Quoted(text), templates.LanguageList()), fixTongue)
			return
		}
		rr.row.Person.Language = lang
	}
}
