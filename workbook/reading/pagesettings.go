package reading

import (
	"maps"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
)

// maxSettings bounds the rows of the settings sheet.
const maxSettings = 200

// readSettings reads the settings of the workbook. Those of the options win.
func (rd *reader) readSettings() error {
	rd.Roster.Settings = roster.SettingValues{}
	err := rd.readPairs(roster.SettingsSheet, maxSettings, func(sheet string, row int, name, value string) error {
		rd.readSetting(sheet, row, name, value)
		return nil
	})
	if err != nil {
		return err
	}
	maps.Copy(rd.Roster.Settings, rd.opt.Settings)
	if v, given := rd.Roster.Settings[roster.SetDateOrder]; given {
		if rd.Facts.Dates.Order, err = cell.ParseDateOrder(v.Value); err != nil {
			return v.Fail(err)
		}
	}
	if v, given := rd.Roster.Settings[roster.SetSexCode]; given {
		if rd.Facts.SexCodes, err = cell.ParseSexCodes(v.Value); err != nil {
			return v.Fail(err)
		}
	}
	return nil
}

// readSetting reads one line. The first of two that set the same counts.
func (rd *reader) readSetting(sheet string, row int, name, value string) {
	if key := heading.Key(name); key == "" || value == "" || key == "setting" {
		return
	}
	say := func(what, fix scoring.Said) {
		rd.Roster.Problems = append(rd.Roster.Problems, roster.Problem{Sheet: sheet, Cell: grid.At(1, row), Read: name, What: what, Fix: fix})
	}
	id, near, ok := heading.FindSetting(name)
	_, given := rd.Roster.Settings[id]
	switch {
	case ok && given:
		say(settingTwice, fixSettingTwice)
	case ok:
		rd.Roster.Settings[id] = roster.SettingValue{Value: value, Place: rd.path + ": " + sheet + "!" + grid.At(2, row)}
	case near != "":
		say(noSuchSetting, fixNearlyHeader.With(scoring.Quoted(near)))
	default:
		say(noSuchSetting, theSettings.With(heading.SettingNames()))
	}
}
