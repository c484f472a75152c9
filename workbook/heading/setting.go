package heading

import (
	"slices"
	"strings"

	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// SettingOf returns the setting whose word for a group, such as Class, Department
// or Squad, heads the group column or, without one, is in the sheet's name.
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
