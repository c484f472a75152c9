package roster

import "tenback/templates"

// Setting is where a group is tested, by the name of who reads its pages. It
// decides the columns of a starter roster.
type Setting templates.Audience

// The settings.
const (
	School    = Setting(templates.School)
	Workplace = Setting(templates.Workplace)
	Squad     = Setting(templates.Squad)
)

// Settings lists the settings.
func Settings() []Setting {
	var all []Setting
	for _, a := range templates.Audiences() {
		all = append(all, Setting(a))
	}
	return all
}

// ParseSetting reads a setting's name.
func ParseSetting(s string) (Setting, error) {
	a, err := templates.ParseAudience(s)
	return Setting(a), err
}

// GroupKey is the key of the word for what the people of a setting are divided
// into.
func (s Setting) GroupKey() string { return "starter.group." + string(s) }

// PageSetting is a value of the settings sheet, and where it stands; both are
// empty if it is not given.
type PageSetting struct {
	Value string
	Place string // such as "tenback settings!B3"
}

// PageSettings are what a workbook says of its pages. The values are as typed;
// whoever uses them checks them.
type PageSettings struct {
	Organisation PageSetting
	Logo         PageSetting // a file's name
	Accent       PageSetting
	Contact      PageSetting
	Audience     PageSetting
	Language     PageSetting
}
