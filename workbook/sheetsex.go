package workbook

import (
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
)

// sexGroups are words for people of one sex, as lists are headed by, folded.
// Words for one person are left out: they may be part of a name.
var sexGroups = func() map[string]scoring.Sex {
	all := map[string]scoring.Sex{}
	for sex, list := range map[scoring.Sex]string{
		scoring.Female: "girls women ladies females madchen frauen damen filles femmes chicas ninas mujeres ragazze donne meninas mulheres " +
			"meisjes vrouwen flickor tjejer kvinnor jenter kvinner piger kvinder dziewczeta dziewczyny kobiety девочки девушки женщины " +
			"女子 女生 여자 여학생 tytot naiset divky zeny kizlar kadinlar lanyok κοριτσια дівчата putri",
		scoring.Male: "boys men males jungen manner herren garcons hommes chicos ninos hombres ragazzi uomini meninos homens " +
			"jongens mannen pojkar killar man gutter menn drenge maend chlopcy mezczyzni мальчики юноши мужчины " +
			"男子 男生 남자 남학생 pojat miehet chlapci muzi erkekler fiuk αγορια хлопці putra",
	} {
		for _, w := range strings.Fields(list) {
			all[cell.Fold(w)] = sex
		}
	}
	delete(all, "man") // Swedish for men, and one man in English
	return all
}()

// sexIn finds the one sex that the words of a title are about.
func sexIn(title string) scoring.Sex {
	found := scoring.SexUnspecified
	for _, w := range strings.FieldsFunc(cell.Fold(shorten(title, maxHeader)), func(r rune) bool { return strings.ContainsRune(" ,;:()[]|/_-.&+", r) }) {
		sex, ok := sexGroups[strings.TrimSuffix(strings.TrimSuffix(w, "s'"), "'s")]
		if !ok {
			sex, ok = sexGroups[strings.TrimSuffix(w, "'")]
		}
		if !ok {
			continue
		}
		if found != scoring.SexUnspecified && sex != found {
			return scoring.SexUnspecified
		}
		found = sex
	}
	return found
}

// findSheetSex takes the sex of all people from the lines above the header or
// from the name of the sheet, where no column has it.
func (sr *sheetReader) findSheetSex(above []headRow) {
	if sr.inputColumn(scoring.SexInput) != nil || sr.columnWith(AgeSex) != nil {
		return
	}
	sr.noSex = true
	var at Problem
	titles := 0
	for _, row := range above {
		for _, c := range row.cells {
			sex := scoring.SexUnspecified
			if c.Kind == cell.Text {
				sex = sexIn(c.Text)
			}
			if sex == scoring.SexUnspecified {
				continue
			}
			if titles++; titles > 1 && sex != sr.sex {
				sr.sex = scoring.SexUnspecified
				return // as above two lists side by side
			}
			sr.sex = sex
			at = Problem{Cell: grid.At(c.Col, row.number), Read: cell.Display(c.Raw, false),
				What: sexFromLine.With(saidSex(sex))}
		}
	}
	if titles == 0 {
		if sr.sex = sexIn(sr.sheet.Name); sr.sex == scoring.SexUnspecified {
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
func (sr *sheetReader) headsSex(row *Row) bool {
	sex := sexIn(row.Person.Label())
	if sex == scoring.SexUnspecified || len(strings.Fields(row.Person.Label())) > 3 {
		return false
	}
	if sr.noSex {
		sr.sex = sex
		sr.headed.add(Problem{Cell: row.Person.NameCell, Read: row.Person.Label()})
	}
	return true
}
