package workbook

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/sheetwords"
)

// SettingsSheet is the name of a sheet that says what the pages look like: a
// setting in its first column, and its value beside it.
const SettingsSheet = "tenback settings"

// maxPageSettings bounds the rows of the settings sheet.
const maxPageSettings = 200

// pageSettings declares each setting once, with names that count besides those
// in words. What to write is in words too.
var pageSettings = []struct {
	id, others string
	of         func(*PageSettings) *PageSetting
}{
	{"organisation", "Organization", func(s *PageSettings) *PageSetting { return &s.Organisation }},
	{"logo", "", func(s *PageSettings) *PageSetting { return &s.Logo }},
	{"accent", "Accent color", func(s *PageSettings) *PageSetting { return &s.Accent }},
	{"contact", "", func(s *PageSettings) *PageSetting { return &s.Contact }},
	{"audience", "", func(s *PageSettings) *PageSetting { return &s.Audience }},
	{"language", "", func(s *PageSettings) *PageSetting { return &s.Language }},
}

// readPageSettings takes the settings that the workbook has for its pages.
func (rd *reader) readPageSettings() error {
	return rd.readPairs(SettingsSheet, maxPageSettings, func(sheet string, row int, name, value string) error {
		rd.readPageSetting(sheet, row, name, value)
		return nil
	})
}

// readPageSetting reads one line. The first of two that set the same counts.
func (rd *reader) readPageSetting(sheet string, row int, name, value string) {
	key := headerKey(name)
	if key == "" || value == "" || key == "setting" {
		return
	}
	say := func(what, fix scoring.Said) {
		rd.roster.Problems = append(rd.roster.Problems, Problem{Sheet: sheet, Cell: grid.At(1, row), Read: name, What: what, Fix: fix})
	}
	var known []string
	for _, s := range pageSettings {
		names := append(sheetwords.Every("setting."+s.id), s.others)
		known = append(known, wordsOf(nil).Say("setting."+s.id, nil))
		if !slices.ContainsFunc(names, func(name string) bool { return headerKey(name) == key }) {
			continue
		}
		setting := s.of(&rd.roster.Pages)
		if setting.Value != "" {
			say(settingTwice, fixSettingTwice)
			return
		}
		*setting = PageSetting{Value: value, Place: sheet + "!" + grid.At(2, row)}
		return
	}
	say(noSuchSetting, theSettings.With(strings.Join(known, ", ")))
}

// readWish reads who the person's page is for, or its language.
func (sr *sheetReader) readWish(raw *rawRow, row *Row, c *sheetColumn, text string) {
	if cell.SaysNoResult(raw.cells[c.slot]) {
		return
	}
	switch c.Meaning.Role {
	case Audience:
		setting, err := ParseSetting(text)
		if err != nil {
			sr.say(row, raw, c, noSuchReader.With(scoring.Quoted(text)), fixReader)
			return
		}
		row.Person.Audience = setting
	case Language:
		if sr.rd.opt.Language == nil {
			return
		}
		lang, err := sr.rd.opt.Language(text)
		if err != nil {
			sr.say(row, raw, c, noSuchTongue.With(scoring.Quoted(text), templates.LanguageList()), fixTongue)
			return
		}
		row.Person.Language = lang
	}
}

// SettingOf tells where the people of the sheet are tested, by what a starter
// roster calls its groups: Class, Department or Squad. It looks at the column for
// groups or, where there is none, at the words of the sheet's name.
func SettingOf(s *Sheet) (setting Setting, ok bool) {
	names := strings.Fields(s.Name)
	for _, c := range s.Columns {
		if c.Meaning.Role == Group {
			names = []string{c.Header}
			break
		}
	}
	for _, name := range names {
		for _, setting := range Settings() {
			if slices.ContainsFunc(sheetwords.Every(groupKey(setting)), func(word string) bool { return headerKey(word) == headerKey(name) }) {
				return setting, true
			}
		}
	}
	return "", false
}
