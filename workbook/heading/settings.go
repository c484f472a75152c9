package heading

import (
	"strings"

	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// settingSpellings are names of settings besides those in the words.
var settingSpellings = map[roster.SettingID][]string{
	roster.SetOrganisation: {"Organization"},
	roster.SetAccent:       {"Accent color"},
}

// SettingWord returns the key of a setting's name in the words; with ".explain"
// behind it, that of what to write.
func SettingWord(id roster.SettingID) string { return "setting." + string(id) }

// FindSetting returns the setting that has a name in any language. If none has,
// near is the English name that looks most like it, possibly empty.
func FindSetting(name string) (id roster.SettingID, near string, ok bool) {
	key := Key(name)
	var known []spelling
	for _, id := range roster.SettingIDs() {
		english := sheetwords.Of(nil).Say(SettingWord(id), nil)
		for _, spelt := range append(append(sheetwords.Every(SettingWord(id)), string(id)), settingSpellings[id]...) {
			if Key(spelt) == key {
				return id, "", true
			}
			known = append(known, spelling{key: Key(spelt), text: english})
		}
	}
	near, _ = nearestOf(known, key, Slips(len([]rune(key))))
	return "", near, false
}

// SettingText is the English name of a setting, and what to write.
type SettingText struct{ Name, Explain string }

// ExplainSettings lists the settings.
func ExplainSettings() []SettingText {
	var all []SettingText
	words := sheetwords.Of(nil)
	for _, id := range roster.SettingIDs() {
		all = append(all, SettingText{words.OneLine(SettingWord(id), nil), words.OneLine(SettingWord(id)+".explain", nil)})
	}
	return all
}

// SettingNames lists the English names of the settings, with commas between them.
func SettingNames() string {
	var all []string
	for _, s := range ExplainSettings() {
		all = append(all, s.Name)
	}
	return strings.Join(all, ", ")
}
