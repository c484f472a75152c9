package roster

import "tenback/templates"

// Setting is where a group is tested: the audience of its pages. It decides the
// columns of a starter roster.
type Setting templates.Audience

// The settings.
const (
	School    = Setting(templates.School)
	Workplace = Setting(templates.Workplace)
	Squad     = Setting(templates.Squad)
)

// Settings returns all settings.
func Settings() []Setting {
	var all []Setting
	for _, a := range templates.Audiences() {
		all = append(all, Setting(a))
	}
	return all
}

// ParseSetting parses a setting's name.
func ParseSetting(s string) (Setting, error) {
	a, err := templates.ParseAudience(s)
	return Setting(a), err
}

// GroupKey returns the key of the word for a group in the setting, such as class.
func (s Setting) GroupKey() string { return "starter.group." + string(s) }

// SettingID names a setting of a roster, which the sheet [SettingsSheet] or an
// option of the program gives.
type SettingID string

// The settings of a roster. Their names and what to write are in the words.
const (
	SetOrganisation SettingID = "organisation"
	SetLogo         SettingID = "logo" // a file's name
	SetAccent       SettingID = "accent"
	SetContact      SettingID = "contact"
	SetAudience     SettingID = "audience"
	SetLanguage     SettingID = "language"
	SetAdultTable   SettingID = "adult-table"
	SetYouthTable   SettingID = "youth-table"
	SetEquations    SettingID = "equation"
	SetFallback     SettingID = "fallback"
	SetSexCode      SettingID = "sex-code"
	SetDateOrder    SettingID = "date-order"
)

// SettingIDs lists the settings in the order in which guides explain them.
func SettingIDs() []SettingID {
	return []SettingID{SetOrganisation, SetLogo, SetAccent, SetContact, SetAudience, SetLanguage,
		SetAdultTable, SetYouthTable, SetEquations, SetFallback, SetSexCode, SetDateOrder}
}

// SettingValue is the value of a setting as typed and not checked.
type SettingValue struct {
	Value    string
	Place    string // an option, or a cell such as "week.xlsx: tenback settings!B3"
	ByOption bool
}

// Fail returns an error that says where the value was given.
func (v SettingValue) Fail(err error) error { return &SettingError{v, err} }

// SettingError is why a setting's value cannot be used.
type SettingError struct {
	SettingValue
	Err error
}

func (e *SettingError) Error() string { return e.Place + ": " + e.Err.Error() }

// Unwrap returns the cause.
func (e *SettingError) Unwrap() error { return e.Err }

// SettingValues holds the settings that were given.
type SettingValues map[SettingID]SettingValue
