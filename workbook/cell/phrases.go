package cell

import "tenback/scoring"

// phrases holds what this package says, in English. Translations have the same
// IDs in templates.
var phrases = scoring.NewPhrasebook("cell.")

// What joins others.
var (
	joinOr    = phrases.Phrase("or", "{First} or {Last}")
	joinComma = phrases.Phrase("comma", "{First}, {Next}")
)

// Whatever was looked for.
var (
	holdsError    = phrases.Phrase("error", "the cell holds the error {Error}")
	fixFormula    = phrases.Phrase("fix-formula", "correct the formula, or {Fix}")
	noResultKept  = phrases.Say("uncached", "the result of the formula is not stored in the file")
	fixSave       = phrases.Phrase("fix-save", "open the workbook in your spreadsheet program, save it and try again, or {Fix}")
	holds         = phrases.Phrase("holds", "the cell holds {Value}")
	tooNarrow     = phrases.Phrase("too-narrow", "the spreadsheet wrote {Read}, because its column was too narrow")
	fixWiden      = phrases.Phrase("fix-widen", "widen the column in your spreadsheet program and save the file again, or {Fix}")
	tooLong       = phrases.Say("too-long", "the text is too long for a value")
	letterIn      = phrases.Say("letter", "there is a letter in place of a digit")
	typeThis      = phrases.Phrase("type", "type {Text}")
	typeOneOf     = phrases.Phrase("type-one-of", "type {First} or {Second}")
	couldBe       = phrases.Phrase("could-be", "this could be {Readings}")
	becameDate    = phrases.Say("became-date", "the spreadsheet turned what was typed into a date")
	becameTime    = phrases.Say("became-time", "the spreadsheet turned what was typed into a time")
	isPercentage  = phrases.Say("percentage", "the cell shows a percentage")
	noStoredValue = phrases.Say("no-stored-number", "the cell holds no valid number")
)

// Numbers.
var (
	fixNumber   = phrases.Say("fix-number", "type a number")
	fixPlain    = phrases.Phrase("fix-plain-format", "{Fix} and give the cell a plain number format")
	fixUngroup  = phrases.Phrase("fix-thousands", "{Fix} without a mark between the thousands")
	noNumber    = phrases.Say("no-number", "this is not a number")
	severalNums = phrases.Say("several-numbers", "there is more than one number in the cell")
	noUnit      = phrases.Phrase("no-unit", "{Text} behind the number is not a known unit")
	otherUnit   = phrases.Phrase("other-unit", "{Text} is not a unit for this column")
	formatWord  = phrases.Say("format-word", "the number format shows a word that is not a known unit")
)

// FixTime says how to type a time.
var FixTime = phrases.Say("fix-time", "type minutes and seconds with a colon, such as 11:30")

// Times.
var (
	fixTimeUnit    = phrases.Phrase("fix-time-unit", "{Fix}, or name the unit in the header: (min), (s) or (min:sec)")
	fixTimeFormat  = phrases.Phrase("fix-time-format", "{Fix}, and give the cell the format mm:ss")
	fixTimeHours   = phrases.Phrase("fix-time-hours", "{Fix}, or hours too: 0:11:30")
	overDay        = phrases.Say("over-a-day", "this is longer than a day")
	overTenDays    = phrases.Say("over-ten-days", "this is a time of more than ten days")
	noTime         = phrases.Say("no-time", "this is not a time")
	noTimeAtAll    = phrases.Phrase("no-time-at-all", "{Number} is not a possible time")
	hoursFirst     = phrases.Phrase("hours-first", "the spreadsheet stores {Clock}, hours first")
	noSuchSeconds  = phrases.Say("no-such-seconds", "a minute does not have so many seconds")
	oneDigit       = phrases.Say("one-digit", "one digit behind the colon is ambiguous")
	manySeconds    = phrases.Phrase("many-seconds", "there are no {Seconds} seconds in a minute")
	sixty          = phrases.Say("sixty", "there are only 60 seconds in a minute and 60 minutes in an hour")
	dateNotTime    = phrases.Say("date-not-time", "this is a date, not a time")
	nonePossible   = phrases.Phrase("none-possible", "{What}, and none of them is possible here")
	asMinSec       = phrases.Phrase("as-minutes-seconds", "{Clock} (minutes and seconds)")
	asHours        = phrases.Phrase("as-hours", "{Clock} (hours)")
	asHoursFirst   = phrases.Phrase("as-hours-first", "{Clock} (hours first)")
	asMinutesFirst = phrases.Phrase("as-minutes-first", "{Clock} (minutes first)")
	asUnformatted  = phrases.Phrase("as-unformatted", "{Clock} (a time without its format)")
	asSomeSeconds  = phrases.Phrase("as-seconds", "{Number} seconds ({Clock})")
	asSomeMinutes  = phrases.Phrase("as-minutes", "{Number} minutes ({Clock})")
)

// Dates.
var (
	fixDate      = phrases.Say("fix-date", "type the date as year-month-day, such as 2010-05-31")
	noDate       = phrases.Say("no-date", "this is not a date")
	noStoredDate = phrases.Say("no-stored-date", "the cell holds no valid date")
	numberNoDate = phrases.Say("number-no-date", "this number is not a date")
	noBirthYear  = phrases.Say("no-birth-year", "this is not a possible year of birth")
	yearOnly     = phrases.Say("year-only", "this is a year only")
	noSuchDate   = phrases.Say("no-such-date", "there is no such date")
	tooLongAgo   = phrases.Phrase("too-long-ago", "the year {Year} is too long ago")
	inFuture     = phrases.Phrase("future", "{Day} is in the future")
	fixFuture    = phrases.Say("fix-future", "correct the date; if it is right, correct the date of this computer")
)

// Sexes and choices.
var (
	fixSex        = phrases.Say("fix-sex", "type female or male, or leave the cell empty")
	eitherSex     = phrases.Say("either-sex", "in this column the letter may mean either sex")
	noSex         = phrases.Say("no-sex", "this is not recognised as a sex")
	notInLegend   = phrases.Phrase("not-in-legend", "the legend does not say what {Code} means")
	noLegend      = phrases.Say("no-legend", "a number may mean either sex, and this sheet does not say which")
	fixLegend     = phrases.Say("fix-legend", "explain it in the header, such as Sex (1 = male, 2 = female), or type female or male")
	noneOfWords   = phrases.Say("none-of-the-words", "not understood")
	fixEffort     = phrases.Say("fix-effort", "type all-out or steady")
	fixGait       = phrases.Say("fix-gait", "type walk or run")
	fixYesNo      = phrases.Say("fix-yes-no", "type yes or no, or leave the cell empty")
	fixShuttle    = phrases.Say("fix-shuttle", "type level and shuttle as text, such as 7.10, or all laps in a column of their own")
	fixAsText     = phrases.Phrase("fix-as-text", "{Fix}, and give the cell the format Text first")
	noLevel       = phrases.Say("no-level", "this is not a level")
	becameEither  = phrases.Say("became-date-or-time", "the spreadsheet turned what was typed into a date or time")
	manyShuttles  = phrases.Phrase("many-shuttles", "no level has {Shuttles} shuttles")
	lostZero      = phrases.Phrase("lost-zero", "a number drops its last zero, so this could be level {Level} with shuttle 1 or with shuttle 10")
	fixLostZero   = phrases.Phrase("fix-lost-zero", "type it as text: '{Level}.10 or '{Level}.1")
	halfOrShuttle = phrases.Phrase("half-level", "this could be level {Level} with shuttle 5 or level {Level} and a half, for all results of the column are whole or halves")
	fixHalf       = phrases.Phrase("fix-half-level", "type level and shuttle such as L{Level} S5, or the whole level alone")
)
