package columns

import (
	"slices"

	"tenback/workbook/cell"
	"tenback/workbook/header"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// speaksOfSchool reports whether a sheet is of a school: by its setting, the word
// for a group, or words in its name, titles and headers.
func (w *Workbook) speaksOfSchool(s *roster.Sheet, title header.Titles) bool {
	if v, given := w.Roster.Settings[roster.SetAudience]; given {
		setting, err := roster.ParseSetting(v.Value)
		return err == nil && setting == roster.School
	}
	if setting, ok := heading.SettingOf(s); ok {
		return setting == roster.School
	}
	texts := []string{s.Name}
	for _, row := range title.Above {
		for _, c := range row.Cells {
			texts = append(texts, c.Text)
		}
	}
	for _, c := range s.Columns {
		if r := c.Meaning.Role; r.IsPerson() || r == roster.Group {
			texts = append(texts, c.Header)
		}
	}
	return slices.ContainsFunc(texts, func(t string) bool { return len(t) <= heading.MaxLen && schoolWords().MatchString(cell.Fold(t)) })
}

// schoolWords matches words of a school, folded.
var schoolWords = cell.Pattern(`^form$|(?:^|[^\pL])(?:class(?:es|room)?|form (?:group|class|\d{1,2})|grade|homeroom|pupils?|students?|school|year (?:group|\d{1,2})|yr \d{1,2}|` +
	`klassen?|schuler\w*|schule|jahrgang|jgst|classes?|eleves?|ecole|college|lycee|clases?|cursos?|alumn[oa]s?|escuela|colegio|` +
	`classi|alunn[oie]s?|scuola|turma|escola|leerlingen|leerling|klas|klassar|elever?|klass|skola|skole|klasa|uczen|uczniowie|szkola)(?:$|[^\pL])|` +
	`класс|ученик|школ|班|年级|学年|学生|学校|クラス|生徒|학년|학교|학생`)
