package columns

import (
	"tenback/scoring"
)

// phrases holds what this package says, in English. Translations have the same
// IDs in templates.
var phrases = scoring.NewPhrasebook("roster.")

// Phrases that take others.
var (
	inCells = phrases.Phrase("in-cells", "{What}; so in {Count} cells")
)

// A value in its cell.
var (
	fixType         = phrases.Phrase("fix-type", "type the {Input}")
	fixTypeRange    = phrases.Phrase("fix-type-range", "type the {Input} as a number from {Low} to {High}")
	fixTypeUnit     = phrases.Phrase("fix-type-unit", "type the {Input} in {Unit}")
	fixCount        = phrases.Phrase("fix-count", "{Fix}; a count of ten seconds has to be multiplied by 6, one of fifteen by 4")
	fixLaps         = phrases.Phrase("fix-laps", "{Fix}; if these are laps, type {Number} laps")
	fixLitres       = phrases.Phrase("fix-litres", "{Fix}; if it is in L/min, type {Number} L/min")
	fixOtherUnit    = phrases.Phrase("fix-other-unit", "{Fix}; if it is in {Unit}, type {Number} {Unit} or name the unit in the header")
	noResultOfTest  = phrases.Phrase("no-result-of-test", "{Input} is not a result of this test")
	noWholeCount    = phrases.Say("no-whole-count", "this is counted, so it must be a whole number")
	fixLevel        = phrases.Say("fix-level", "type the level")
	fixTrackLaps    = phrases.Say("fix-track-laps", "type the laps of the track, such as 5.75")
	readNoShuttle10 = phrases.Phrase("shuttle-10", "{Level} was read as shuttle 1 of its level, but a spreadsheet writes shuttle 10 the same way in a column of numbers")
	fixShuttle10    = phrases.Say("fix-shuttle-10", "if shuttle 10 is meant, type 7.10, and give the column the format Text before saving as CSV")
	daysExchanged   = phrases.Say("days-exchanged", "the spreadsheet may have swapped day and month in some dates: no real date has a day above 12, but the dates left as text do")
	fixExchanged    = phrases.Say("fix-exchanged", "compare a few dates with your list, and type them as 2010-05-31 if they are wrong")
)

// Headers and columns.
var (
	columnsMany      = phrases.Phrase("many-columns", "this and the columns after it were not used: more than {Most} are in use")
	fixColumnsMany   = phrases.Say("fix-many-columns", "remove the columns that are not needed")
	clocks           = phrases.Phrase("clocks", "this and {Cell} ({Header}) are the clock at the finish and the start; add a column with the difference, named after the test: \"1.5 mile run\"")
	headerWhichTest  = phrases.Say("header-which-test", "the header does not name the test, so the column was not used")
	FixHeaderTest    = phrases.Say("fix-header-test", "name the test in the header, such as \"1.5 mile run\", or add a column \"Test\"")
	noTestToLeft     = phrases.Say("no-test-to-left", "no test is named to the left of this result, so it was not used")
	fixTestToLeft    = phrases.Say("fix-test-to-left", "put the column \"Test\" to the left of it")
	noResultColumn   = phrases.Say("no-result-column", "there is a column for the test but none for its result")
	addResultColumn  = phrases.Say("add-result-column", "add a column \"Result\"")
	sameColumns      = phrases.Phrase("same-columns", "this column and {Cell} ({Header}) hold the same; if a row has both, the value is used only if they agree")
	fixSameColumns   = phrases.Phrase("fix-same-columns", "if they are from two occasions, leave one out: --column {Option}")
	attemptsBetter   = phrases.Phrase("attempts-better", "this column and {Cell} ({Header}) are attempts at one test; the better one of a person counts")
	readBySpeed      = phrases.Phrase("read-by-speed", "the header does not say whether this was run or walked; by the speed it was read as a result of the {Test}")
	attemptsByDay    = phrases.Phrase("attempts-by-day", "this column and {Cell} ({Header}) are results of several days; the latest of a person counts, on the day in its header")
	attemptsLast     = phrases.Phrase("attempts-last", "this column and {Cell} ({Header}) are attempts at one test by pulse; the last complete one of a person counts, because a lower pulse need not be a better one")
	otherTerm        = phrases.Phrase("other-term", "this column is of another day than {Cell} ({Header}), whose results were used instead")
	fixOtherTerm     = phrases.Phrase("fix-other-term", "to use this day, leave out the columns of the later one: --column {Option}")
	testNotScored    = phrases.Say("test-not-scored", "this test is not scored; tenback tests lists those that are")
	readAsRace       = phrases.Phrase("race", "read as a race over {Distance}, run all out")
	fixRace          = phrases.Say("fix-race", "if it was not, leave the column out with --column \"HEADER=ignore\"")
	readAsResult     = phrases.Phrase("result-of-title", "read as a result of the {Test}, because the title or the sheet's name says so")
	FixReadAsResult  = phrases.Say("fix-result-of-title", "name the test in the header if this is wrong")
	secondList       = phrases.Say("second-list", "a second list of people begins here beside the first; it was not read")
	fixSecondList    = phrases.Say("fix-second-list", "put the second list below the first, or on a sheet of its own")
	noResultKnown    = phrases.Say("no-result-known", "no column is recognised as a test result")
	mayHold          = phrases.Phrase("may-hold", "not recognised, so it was left alone; by its words and values it may be: {Headers}")
	addOneSuchAs     = phrases.Phrase("add-one", "add one such as \"{Header}\"")
	notRecognised    = phrases.Phrase("not-recognised", "{What}; not recognised were {Headers}")
	fixNotRecognised = phrases.Say("fix-not-recognised", "say what a column holds, in the questions file or with --column \"HEADER=MEANING\"")
)

// Columns judged by their values.
var (
	fixReadSo = phrases.Say("fix-read-so", "if that is wrong, say so in the header")
)

// Answers to questions.
var (
	answerColumnGone = phrases.Phrase("answer-column-gone", "the answer in {Place} was not used: this column is gone, or columns of one header were moved")
	AnswerAgain      = phrases.Say("answer-again", "answer again, or delete the answer")
)

// Health.
var (
	UnclearAnswer = phrases.Say("unclear-answer", "neither a clear yes nor a clear no, so it counts as yes until it is answered")
	AskYesNo      = phrases.Say("ask-yes-no", "ask the person, and type yes or no")
	asksHealth    = phrases.Say("asks-health", "this column seems to ask about health and is not understood; until it is answered, nobody on this sheet is scored by pulse or all-out")
)

// remarkTexts are said once of a column, however many cells they concern.
var remarkTexts = map[Remark]scoring.Said{
	ReadFromHours:     phrases.Say("from-hours", "the spreadsheet stores hours and minutes, read as minutes and seconds"),
	ReadByPossibility: phrases.Say("by-possibility", "read in the only way possible in this test"),
	ReadShortYear:     phrases.Say("short-year", "the year has two digits; the last possible century was used"),
	ReadYearOnly:      phrases.Say("year-only", "only the year of birth is given, so the age is right within half a year"),
	ReadNoSeconds:     phrases.Say("no-seconds", "the cell for the seconds is empty, taken as 0"),
	ReadAsUntested:    phrases.Say("no-value", "read as not tested"),
}
