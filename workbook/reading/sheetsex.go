package reading

import (
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// findSheetSex takes the sex of all people from the lines above the header or
// from the name of the sheet, where no column has it.
func (sr *sheetReader) findSheetSex(above []headRow) {
	if sr.inputColumn(scoring.SexInput) != nil || sr.columnWith(roster.AgeSex) != nil {
		return
	}
	sr.noSex = true
	var at roster.Problem
	titles := 0
	for _, row := range above {
		for _, c := range row.cells {
			sex := scoring.SexUnspecified
			if c.Kind == cell.Text {
				sex = heading.SexIn(c.Text)
			}
			if sex == scoring.SexUnspecified {
				continue
			}
			if titles++; titles > 1 && sex != sr.sex {
				sr.sex = scoring.SexUnspecified
				return // as above two lists side by side
			}
			sr.sex = sex
			at = roster.Problem{Cell: grid.At(c.Col, row.number), Read: cell.Display(c.Raw, false),
				What: sexFromLine.With(saidSex(sex))}
		}
	}
	if titles == 0 {
		if sr.sex = heading.SexIn(sr.sheet.Name); sr.sex == scoring.SexUnspecified {
			return
		}
		at.What = sexFromName.With(saidSex(sr.sex))
	}
	at.Sheet, at.Fix = sr.sheet.Name, addSexColumn
	sr.rd.roster.Problems = append(sr.rd.roster.Problems, at)
}

func saidSex(sex scoring.Sex) scoring.Said {
	if sex == scoring.Female {
		return aFemale
	}
	return aMale
}

// headsSex takes a line that is nothing but "Girls" or "Boys" as the heading
// of those below it.
func (sr *sheetReader) headsSex(row *roster.Row) bool {
	sex := heading.SexIn(row.Person.Label())
	if sex == scoring.SexUnspecified || len(strings.Fields(row.Person.Label())) > 3 {
		return false
	}
	if sr.noSex {
		sr.sex = sex
		sr.headed.add(roster.Problem{Cell: row.Person.NameCell, Read: row.Person.Label()})
	}
	return true
}
