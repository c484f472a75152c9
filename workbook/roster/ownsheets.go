package roster

import "strings"

// The names of the sheets that are for tenback and hold no people.
const (
	// MappingSheet says what columns hold: a header in its first column, and
	// beside it a header that is known, or "ignore".
	MappingSheet = "tenback columns"
	// SettingsSheet says what the pages look like: a setting in its first column,
	// and its value beside it.
	SettingsSheet = "tenback settings"
)

// IsNamed reports whether a sheet has a name, blanks and case aside.
func IsNamed(sheet, want string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(sheet), " "), want)
}

// IsOwnSheet reports whether a sheet is for tenback and holds no people.
func IsOwnSheet(name string) bool { return IsNamed(name, MappingSheet) || IsNamed(name, SettingsSheet) }
