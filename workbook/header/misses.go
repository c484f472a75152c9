package header

import (
	"fmt"
	"strings"

	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
)

// Misses is what came near to being a header.
type Misses struct {
	near    []miss
	partial string // a row that lacks only something to score
	across  string // a sheet with a column for each person
}

// miss is a text close to a known header.
type miss struct{ sheet, address, text, known string }

// Note adds what came near to being a header: a known word for a person in a row
// with nothing to score, and texts close to known ones.
func (m *Misses) Note(ns Names, sheet string, rows []Row) {
	const most = 200
	looked := 0
	if m.across == "" && ns.readAcross(rows) {
		m.across = sheet
	}
	for _, row := range rows {
		for _, c := range row.Cells {
			if h, ok := ns.Match(c.Text); ok && c.Kind == cell.Text && h.Role.IsPerson() && m.partial == "" && looked < most {
				m.partial = fmt.Sprintf("the row of %q in %s!%s has nothing beside it to score", c.Text, sheet, grid.At(c.Col, row.Number))
			}
			if looked++; looked > most {
				return
			}
			if c.Kind != cell.Text || len(c.Text) > 60 || ns.isKnown(c.Text) {
				continue
			}
			if known, ok := heading.Nearest(c.Text); ok {
				m.near = append(m.near, miss{sheet, grid.At(c.Col, row.Number), c.Text, known})
			}
		}
	}
}

// readAcross reports whether the first cells of the rows are a header.
func (ns Names) readAcross(rows []Row) bool {
	var texts []string
	for _, row := range rows {
		if len(row.Cells) > 1 && row.Cells[0].Kind == cell.Text {
			texts = append(texts, row.Cells[0].Text)
		}
	}
	return ns.scoreHeader(texts) >= 3
}

// Explain returns why no header was found.
func (m *Misses) Explain() string {
	why := fmt.Sprintf("no row among the first %d is a header with a name or an ID and something to score; "+
		"looked for headers such as Name, ID, Sex, Date of birth, Test date, %s", Depth, exampleHeaders())
	if m.partial != "" && m.across == "" {
		why += "; " + m.partial
	}
	if m.across != "" {
		why = fmt.Sprintf("the headers of sheet %q seem to run down, with a column for each person; one row for each person is needed: "+
			"copy the table and paste it transposed", m.across)
	} else if len(m.near) > 0 {
		near := m.near[0]
		why += fmt.Sprintf("; %q in %s!%s looks like %q", near.text, near.sheet, near.address, near.known)
	}
	return why
}

// exampleHeaders lists the first few result columns.
func exampleHeaders() string {
	var all []string
	for _, t := range fieldtests.All() {
		if len(t.Results) > 0 && len(all) < 3 {
			all = append(all, t.Results[0].Column)
		}
	}
	return strings.Join(all, ", ")
}
