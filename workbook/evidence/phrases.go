package evidence

import (
	"tenback/scoring"
	"tenback/workbook/cell"
)

// phrases holds what this package says, in English. Translations have the same
// IDs in templates.
var phrases = scoring.NewPhrasebook("evidence.")

// Why a column is asked about.
var (
	whichUnit    = phrases.Say("unit", "the header, the values and the columns beside them do not agree on a unit")
	whichTime    = phrases.Say("time", "the numbers can be read as times in more than one way")
	whichCount   = phrases.Say("count", "these are no beats a minute; they may have been counted over a shorter time")
	whichPulse   = phrases.Say("pulse", "this may be the resting heart rate or the one in the test")
	whichIndex   = phrases.Say("index", "these are hardly body masses; they may be body mass indices, which no test takes")
	exchanged    = phrases.Say("exchanged", "this column and another one hold values that fit each other's headers")
	lapsOrLevels = phrases.Say("laps-or-levels", "the values do not fit the header: they may be laps, or levels")
	whichSex     = phrases.Say("sex", "in this column a letter may mean either sex")
	whichCode    = phrases.Say("code", "a number may mean either sex, and the sheet does not say which")
	whichOrder   = phrases.Say("order", "day and month may be either way round, and no date of the column decides")
)

// A value worked out.
var (
	worked         = phrases.Phrase("worked", "{Read} is {Value}")
	converted      = phrases.Phrase("converted", "{Read} is {Given}, which is {Value}")
	minutesSeconds = phrases.Phrase("min-sec", "{Minutes} min {Seconds} s")
	female         = phrases.Say("female", "female")
	male           = phrases.Say("male", "male")
)

// How a column is read.
var (
	readInUnit  = phrases.Phrase("read-in", "the header names no unit; read in {Unit}, the only unit that fits all values")
	readAsPulse = phrases.Phrase("read-as", "read as {Input}, which alone fits the values")
)

// timeRemarks say how plain numbers are read as times.
var timeRemarks = map[cell.TimeStyle]scoring.Said{
	cell.Dotted:    phrases.Say("read-min-sec", "plain numbers were read as minutes and seconds, which alone fits the whole column"),
	cell.InMinutes: phrases.Say("read-min", "plain numbers were read as minutes with decimals, which alone fits the whole column"),
	cell.InSeconds: phrases.Say("read-s", "plain numbers were read as seconds, which alone fits the whole column"),
}
