package reading

import (
	"tenback/scoring"
)

// phrases holds what this package says, in English. Translations have the same
// IDs in templates.
var phrases = scoring.NewPhrasebook("roster.")

// A value in its cell.
var (
	saysOther      = phrases.Phrase("says-other", "{Cell} holds another value")
	fixEmptyOne    = phrases.Phrase("fix-empty-one", "empty one of the two cells, or leave one column out: --column {Option}")
	fixMinutes     = phrases.Say("fix-minutes", "type whole minutes in one cell and the seconds in the other")
	sexOfGroup     = phrases.Phrase("sex-of-group", "the group {Name} is of the other sex")
	noWholeMinutes = phrases.Say("no-whole-minutes", "the minutes are not a whole number")
	badSeconds     = phrases.Say("bad-seconds", "the seconds must be from 0 to 59")
	readAs         = phrases.Phrase("read-as", "read as {Clock}")
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
	notTheBest       = phrases.Phrase("not-the-best", "the best attempt is another one, in {Cell}")
	fixNearlyHeader  = phrases.Phrase("fix-nearly-header", "if that is meant, call it {Near}")
	readByBlock      = phrases.Say("result-of-block", "read as results of the tests that the lines above the people name")
	hiddenColumns    = phrases.Phrase("hidden-columns", "hidden columns were read like the others: {Headers}")
	fixHiddenColumns = phrases.Say("fix-hidden-columns", "leave out what is not to be used with --column \"HEADER=ignore\"")
)

// Health.
var (
	unclearLeave   = phrases.Say("unclear-leave", "neither a clear yes nor a clear no, so it counts as not given until it is answered")
	notAnswered    = phrases.Say("not-answered", "nothing is typed here, and most others are a no in words; an empty cell counts as no")
	speaksOfDanger = phrases.Say("speaks-of-danger", "this note speaks of a danger to health")
	dangerInTest   = phrases.Say("danger-in-test", "this note speaks of a danger to health that showed in the test")
	talkFirst      = phrases.Say("talk-first", "talk to the person before the next test")
)

// Columns judged by their values.
var (
	waits = phrases.Phrase("waits", "this waits for an answer about the column {Header}")
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
	answerCellChanged = phrases.Phrase("answer-cell-changed", "the answer in {Place} was not used, because the cell has changed; it was asked about \"{Text}\"")
	answerSheetGone   = phrases.Phrase("answer-sheet-gone", "the answers from {Place} on were not used, because there is no such sheet now")
)
