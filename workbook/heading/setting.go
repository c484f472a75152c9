package heading

import (
	"slices"
	"strings"

	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// SettingOf returns where the people of the sheet are tested, by what a starter
// roster calls its groups: Class, Department or Squad. It looks at the column for
// groups or, where there is none, at the words of the sheet's name.
func SettingOf(s *roster.Sheet) (setting roster.Setting, ok bool) {
	names := strings.Fields(s.Name)
	for _, c := range s.Columns {
		if c.Meaning.Role == roster.Group {
			names = []string{c.Header}
			break
		}
	}
	for _, name := range names {
		for _, setting := range roster.Settings() {
			if slices.ContainsFunc(sheetwords.Every(setting.GroupKey()), func(word string) bool { return Key(word) == Key(name) }) {
				return setting, true
			}
		}
	}
	return "", false
}
