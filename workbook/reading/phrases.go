package reading

import (
	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
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
	saysOther       = phrases.Phrase("says-other", "{Cell} holds another value")
	fixEmptyOne     = phrases.Phrase("fix-empty-one", "empty one of the two cells, or leave one column out: --column {Option}")
	noResultOfTest  = phrases.Phrase("no-result-of-test", "{Input} is not a result of this test")
	fixLevel        = phrases.Say("fix-level", "type the level")
	fixTrackLaps    = phrases.Say("fix-track-laps", "type the laps of the track, such as 5.75")
	fixMinutes      = phrases.Say("fix-minutes", "type whole minutes in one cell and the seconds in the other")
	noWholeMinutes  = phrases.Say("no-whole-minutes", "the minutes are not a whole number")
	badSeconds      = phrases.Say("bad-seconds", "the seconds must be from 0 to 59")
	readAs          = phrases.Phrase("read-as", "read as {Clock}")
	readNoShuttle10 = phrases.Phrase("shuttle-10", "{Level} was read as shuttle 1 of its level, but a spreadsheet writes shuttle 10 the same way in a column of numbers")
	fixShuttle10    = phrases.Say("fix-shuttle-10", "if shuttle 10 is meant, type 7.10, and give the column the format Text before saving as CSV")
	daysExchanged   = phrases.Say("days-exchanged", "the spreadsheet may have swapped day and month in some dates: no real date has a day above 12, but the dates left as text do")
	fixExchanged    = phrases.Say("fix-exchanged", "compare a few dates with your list, and type them as 2010-05-31 if they are wrong")
)

// A row and its person.
var (
	noResultHere  = phrases.Say("no-result", "there is no test result in this row")
	fillInHeaders = phrases.Phrase("fill-in", "fill in {Headers}")
	addResult     = phrases.Phrase("add-result", "add a column for a test result, such as \"{Header}\"")
	whoseResult   = phrases.Say("whose-result", "the result has no name or ID")
	fixWhose      = phrases.Say("fix-whose", "type whose result it is")
	takenAsNote   = phrases.Say("note", "read as a note, not as a person")
	idCutShort    = phrases.Say("id-cut-short", "a spreadsheet cut off digits of this number, so it is not used as an ID")
	fixIDCutShort = phrases.Say("fix-id-cut-short", "give the column the format Text where the file comes from, and type the ID again")
	whichTest     = phrases.Say("which-test", "the row does not name the test")
	fixWhichTest  = phrases.Phrase("fix-which-test", "name the test in the column {Header}")
	unknownTest   = phrases.Say("unknown-test", "this test is not known")
	listOfTests   = phrases.Say("list-of-tests", "tenback tests lists the tests and their names")
	didYouMean    = phrases.Phrase("did-you-mean", "did you mean {Near}? {Fix}")
	testNoResult  = phrases.Say("test-without-result", "the test has no result")
	eitherTest    = phrases.Phrase("either-test", "this may belong to the {First} or the {Second}")
	fixEitherTest = phrases.Phrase("fix-either-test", "give each test a column of its own, such as \"{Test} pulse\"")
	noSuchReader  = phrases.Phrase("no-such-reader", "{Text} is not school, workplace or squad, so the page is worded like the others")
	fixReader     = phrases.Say("fix-reader", "write one of the three, or leave the cell empty")
	noSuchTongue  = phrases.Phrase("no-such-language", "{Text} is not a known language; there are: {Languages}, so the page is in the language of the others")
	fixTongue     = phrases.Say("fix-language", "write one of them, or leave the cell empty")
)

// The day of the test, the date of birth and the age.
var (
	typeTestDate     = phrases.Say("type-test-date", "type the test date of this row")
	bornAfter        = phrases.Phrase("born-after", "{Born} is after the test on {Tested}")
	ageOutside       = phrases.Phrase("age-outside", "the age on the test day, {Why}")
	ageByBirth       = phrases.Phrase("age-by-birth", "the date of birth in {Cell} makes it {Years} years on the test day, which was used")
	sexFromLineBelow = phrases.Say("sex-below", "there is no column for the sex, so it was taken from this line for the people below it")
)

// Headers and columns.
var (
	columnsMany      = phrases.Phrase("many-columns", "this and the columns after it were not used: more than {Most} are in use")
	fixColumnsMany   = phrases.Say("fix-many-columns", "remove the columns that are not needed")
	clocks           = phrases.Phrase("clocks", "this and {Cell} ({Header}) are the clock at the finish and the start; add a column with the difference, named after the test: \"1.5 mile run\"")
	headerWhichTest  = phrases.Say("header-which-test", "the header does not name the test, so the column was not used")
	fixHeaderTest    = phrases.Say("fix-header-test", "name the test in the header, such as \"1.5 mile run\", or add a column \"Test\"")
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
	notTheBest       = phrases.Phrase("not-the-best", "the best attempt is another one, in {Cell}")
	otherTerm        = phrases.Phrase("other-term", "this column is of another day than {Cell} ({Header}), whose results were used instead")
	fixOtherTerm     = phrases.Phrase("fix-other-term", "to use this day, leave out the columns of the later one: --column {Option}")
	testNotScored    = phrases.Say("test-not-scored", "this test is not scored; tenback tests lists those that are")
	fixNearlyHeader  = phrases.Phrase("fix-nearly-header", "if that is meant, call it {Near}")
	readAsRace       = phrases.Phrase("race", "read as a race over {Distance}, run all out")
	fixRace          = phrases.Say("fix-race", "if it was not, leave the column out with --column \"HEADER=ignore\"")
	readAsResult     = phrases.Phrase("result-of-title", "read as a result of the {Test}, because the title or the sheet's name says so")
	readByBlock      = phrases.Say("result-of-block", "read as results of the tests that the lines above the people name")
	fixReadAsResult  = phrases.Say("fix-result-of-title", "name the test in the header if this is wrong")
	secondList       = phrases.Say("second-list", "a second list of people begins here beside the first; it was not read")
	fixSecondList    = phrases.Say("fix-second-list", "put the second list below the first, or on a sheet of its own")
	noResultKnown    = phrases.Say("no-result-known", "no column is recognised as a test result")
	mayHold          = phrases.Phrase("may-hold", "not recognised, so it was left alone; by its words and values it may be: {Headers}")
	addOneSuchAs     = phrases.Phrase("add-one", "add one such as \"{Header}\"")
	notRecognised    = phrases.Phrase("not-recognised", "{What}; not recognised were {Headers}")
	fixNotRecognised = phrases.Say("fix-not-recognised", "say what a column holds, in the questions file or with --column \"HEADER=MEANING\"")
	hiddenColumns    = phrases.Phrase("hidden-columns", "hidden columns were read like the others: {Headers}")
	fixHiddenColumns = phrases.Say("fix-hidden-columns", "leave out what is not to be used with --column \"HEADER=ignore\"")
)

// Health.
var (
	unclearAnswer  = phrases.Say("unclear-answer", "neither a clear yes nor a clear no, so it counts as yes until it is answered")
	unclearLeave   = phrases.Say("unclear-leave", "neither a clear yes nor a clear no, so it counts as not given until it is answered")
	askYesNo       = phrases.Say("ask-yes-no", "ask the person, and type yes or no")
	speaksOfDanger = phrases.Say("speaks-of-danger", "this note speaks of a danger to health")
	dangerInTest   = phrases.Say("danger-in-test", "this note speaks of a danger to health that showed in the test")
	talkFirst      = phrases.Say("talk-first", "talk to the person before the next test")
	asksHealth     = phrases.Say("asks-health", "this column seems to ask about health and is not understood; until it is answered, nobody on this sheet is scored by pulse or all-out")
)

// Columns judged by their values.
var (
	waits     = phrases.Phrase("waits", "this waits for an answer about the column {Header}")
	fixReadSo = phrases.Say("fix-read-so", "if that is wrong, say so in the header")
)

// Sheets and files.
var (
	hiddenRows      = phrases.Phrase("hidden-rows", "hidden rows were read like the others: {Count}, from this one on")
	filteredRows    = phrases.Phrase("filtered-rows", "a filter is on; the rows it hides were read like the others: {Count}, from this one on")
	fixHiddenRows   = phrases.Say("fix-hidden-rows", "delete rows that are not part of the roster")
	hiddenSheet     = phrases.Say("hidden-sheet", "this hidden sheet looks like a roster and was not read")
	fixHiddenSheet  = phrases.Say("fix-hidden-sheet", "show it, or ask for it by name")
	otherTable      = phrases.Say("other-table", "the table that starts here has other headers than the people above, so it was not read")
	readAsList      = phrases.Say("list", "this sheet has no column for a test result; it was read as a list, which fills in what other sheets do not say of a person")
	settingTwice    = phrases.Say("setting-twice", "this setting is given twice; the first was used")
	fixSettingTwice = phrases.Say("fix-setting-twice", "delete one of them")
	noSuchSetting   = phrases.Say("no-such-setting", "unknown setting, not used")
	theSettings     = phrases.Phrase("settings", "the settings are {Names}")
)

// Answers to questions.
var (
	answerColumnGone  = phrases.Phrase("answer-column-gone", "the answer in {Place} was not used: this column is gone, or columns of one header were moved")
	answerCellChanged = phrases.Phrase("answer-cell-changed", "the answer in {Place} was not used, because the cell has changed; it was asked about \"{Text}\"")
	answerSheetGone   = phrases.Phrase("answer-sheet-gone", "the answers from {Place} on were not used, because there is no such sheet now")
	answerAgain       = phrases.Say("answer-again", "answer again, or delete the answer")
)

// remarkTexts are said once of a column, however many cells they concern.
var remarkTexts = map[remark]scoring.Said{
	readFromHours:     phrases.Say("from-hours", "the spreadsheet stores hours and minutes, read as minutes and seconds"),
	readByPossibility: phrases.Say("by-possibility", "read in the only way possible in this test"),
	readShortYear:     phrases.Say("short-year", "the year has two digits; the last possible century was used"),
	readYearOnly:      phrases.Say("year-only", "only the year of birth is given, so the age is right within half a year"),
	readNoSeconds:     phrases.Say("no-seconds", "the cell for the seconds is empty, taken as 0"),
	readAsUntested:    phrases.Say("no-value", "read as not tested"),
}

// orEach joins headers with "or".
func orEach(names []string) any {
	var all any = names[0]
	for _, n := range names[1:] {
		all = cell.Or(all, n)
	}
	return all
}

// quotedList quotes words of a sheet, at most 20.
func quotedList(names []string) any {
	var all []any
	for _, n := range names {
		all = append(all, scoring.Quoted(n))
	}
	return roster.FirstOf(all, 20)
}
