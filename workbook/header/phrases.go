package header

import "tenback/scoring"

var phrases = scoring.NewPhrasebook("roster.")

// The test day and the sex in a title.
var (
	aFemale        = phrases.Say("female", "female")
	aMale          = phrases.Say("male", "male")
	titleDayUnread = phrases.Phrase("title-day-unread", "there is no column for the test date, and the date in this line was not used: {Why}")
	titleDayTaken  = phrases.Phrase("title-day", "there is no column for the test date, so {Day} was taken from this line for the whole sheet")
	titleDays      = phrases.Say("title-days", "there is no column for the test date, and the lines above the header name several days, so none was used")
	titleLineDays  = phrases.Say("title-line-days", "there is no column for the test date, and this line names several days, so none was used")
	titleMonth     = phrases.Say("title-month", "there is no column for the test date, and this line names the month without the day, so it was not used")
	headerDays     = phrases.Say("header-days", "there is no column for the test date, and the headers of the results name several days, so none was used")
	nameDayUnread  = phrases.Phrase("sheet-day-unread", "there is no column for the test date, and the date in the sheet's name was not used: {Why}")
	nameDayTaken   = phrases.Phrase("sheet-day", "there is no column for the test date, so {Day} was taken from the sheet's name")
	sexFromLine    = phrases.Phrase("sex-from-line", "there is no column for the sex, so {Sex} was taken from this line for the whole sheet")
	sexFromName    = phrases.Phrase("sex-from-sheet", "there is no column for the sex, so {Sex} was taken from the sheet's name")
	addSexColumn   = phrases.Say("add-sex", "add a column \"Sex\" if that is wrong for someone")
)
