package reading

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// maxPageSettings bounds the rows of the settings sheet.
const maxPageSettings = 200

// pageSettings declares each setting once, with names that count besides those
// in words. What to write is in words too.
var pageSettings = []struct {
	id, others string
	of         func(*roster.PageSettings) *roster.PageSetting
}{
	{"organisation", "Organization", func(s *roster.PageSettings) *roster.PageSetting { return &s.Organisation }},
	{"logo", "", func(s *roster.PageSettings) *roster.PageSetting { return &s.Logo }},
	{"accent", "Accent color", func(s *roster.PageSettings) *roster.PageSetting { return &s.Accent }},
	{"contact", "", func(s *roster.PageSettings) *roster.PageSetting { return &s.Contact }},
	{"audience", "", func(s *roster.PageSettings) *roster.PageSetting { return &s.Audience }},
	{"language", "", func(s *roster.PageSettings) *roster.PageSetting { return &s.Language }},
}

// PageSettings lists the IDs of the settings, in the order of a guide to them.
func PageSettings() []string {
	var all []string
	for _, s := range pageSettings {
		all = append(all, s.id)
	}
	return all
}

// readPageSettings takes the settings that the workbook has for its pages.
func (rd *reader) readPageSettings() error {
	return rd.readPairs(roster.SettingsSheet, maxPageSettings, func(sheet string, row int, name, value string) error {
		rd.readPageSetting(sheet, row, name, value)
		return nil
	})
}

// readPageSetting reads one line. The first of two that set the same counts.
func (rd *reader) readPageSetting(sheet string, row int, name, value string) {
	key := heading.Key(name)
	if key == "" || value == "" || key == "setting" {
		return
	}
	say := func(what, fix scoring.Said) {
		rd.roster.Problems = append(rd.roster.Problems, roster.Problem{Sheet: sheet, Cell: grid.At(1, row), Read: name, What: what, Fix: fix})
	}
	var known []string
	for _, s := range pageSettings {
		names := append(sheetwords.Every("setting."+s.id), s.others)
		known = append(known, sheetwords.Of(nil).Say("setting."+s.id, nil))
		if !slices.ContainsFunc(names, func(name string) bool { return heading.Key(name) == key }) {
			continue
		}
		setting := s.of(&rd.roster.Pages)
		if setting.Value != "" {
			say(settingTwice, fixSettingTwice)
			return
		}
		*setting = roster.PageSetting{Value: value, Place: sheet + "!" + grid.At(2, row)}
		return
	}
	say(noSuchSetting, theSettings.With(strings.Join(known, ", ")))
}
