package roster

import "strings"

// The names of sheets that are for tenback and hold no people.
const (
	// MappingSheet has a header in its first column, and beside it a known header
	// for it, or "ignore".
	MappingSheet = "tenback columns"
	// SettingsSheet says what the pages look like: a setting in its first column,
	// and its value beside it.
	SettingsSheet = "tenback settings"
)

// IsNamed reports whether a sheet has a name, ignoring blanks and case.
func IsNamed(sheet, want string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(sheet), " "), want)
}

// IsOwnSheet reports whether a sheet is for tenback and holds no people.
func IsOwnSheet(name string) bool { return IsNamed(name, MappingSheet) || IsNamed(name, SettingsSheet) }
