package people

import "tenback/scoring"

// phrases are what this package says of rosters, beyond what cell says of single
// cells. Each stands here once, in English; other languages have it in templates,
// under its ID.
var phrases = scoring.NewPhrasebook("roster.")

// What joins and bends others.
var (
	twoPeople = phrases.Phrase("two-people", "{What}; taken as two people")
)

// The day of the test, the date of birth and the age.
var (
	doesNotFit = phrases.Phrase("does-not-fit", "this does not fit to the test on {Tested}")
)

// People in several rows. {Whose} is one of the first two.
var (
	thisID          = phrases.Say("this-id", "this ID")
	thisNameBirth   = phrases.Say("this-name-and-birth", "this name and date of birth")
	otherName       = phrases.Phrase("other-name", "{Whose} stands beside another name")
	fixOtherName    = phrases.Say("fix-other-name", "write the name alike in both rows, or give one of the people another ID")
	otherSex        = phrases.Phrase("other-sex", "{Whose} stands beside the other sex")
	otherBirth      = phrases.Phrase("other-birth", "{Whose} stands beside another date of birth")
	sameTestNoName  = phrases.Phrase("same-test-no-name", "{Whose} stands on another sheet with the same test, and no name tells whether this is the same person")
	fixNoName       = phrases.Say("fix-no-name", "add names, or give every person an ID of their own")
	severalPeople   = phrases.Say("several-people", "several people have this name and date of birth, and the row does not say which it is about")
	addID           = phrases.Say("add-id", "add the ID")
	nearlyBirth     = phrases.Say("nearly-birth", "the name stands in another row beside a date of birth that is nearly this one")
	earlierBirth    = phrases.Say("earlier-birth", "the name stands in an earlier workbook beside a date of birth that is nearly this one; taken as two people")
	fixNearlyBirth  = phrases.Say("fix-nearly-birth", "if this is one person, correct the one that is wrong")
	unseenSigns     = phrases.Say("unseen-signs", "the name looks like another one and differs in signs that cannot be seen")
	anotherIDToo    = phrases.Say("another-id-too", "the name and the date of birth stand under another ID too")
	anotherRowToo   = phrases.Say("another-row-too", "the name stands in another row too, and nothing tells whether this is the same person")
	nearlyName      = phrases.Say("nearly-name", "the name is nearly that of another row with the same date of birth")
	fixOneOrTwo     = phrases.Say("fix-one-or-two", "if this is one person, write ID, name and date of birth alike in both rows")
	nearlyID        = phrases.Phrase("nearly-id", "the ID {One} is nearly {Other}")
	fixNearlyID     = phrases.Say("fix-nearly-id", "if this is one person, write the ID alike in both rows")
	tooManyBirths   = phrases.Say("too-many-births", "too many people are born on one day for their names to be compared letter by letter; names that are nearly alike are not told")
	valueDiffers    = phrases.Phrase("value-differs", "the {Input} differs from that in {Cell} of the same person, which was used")
	countedOnce     = phrases.Phrase("counted-once", "the same person has the same result in {Cell}; it was counted once")
	otherResultDay  = phrases.Phrase("other-result-same-day", "the same person has the same test with another result on the same day in {Cell}, so no change is worked out from it")
	betterCounts    = phrases.Phrase("better-counts", "the same person has the same test with another result in {Cell}; the better attempt counts")
	lastCounts      = phrases.Phrase("last-counts", "the same person has the same test by pulse with another result in {Cell}; the last complete attempt counts, because a lower pulse need not be a better one")
	fixOtherResult  = phrases.Say("fix-other-result", "if one of them is of another day, correct its test date")
	dayUnread       = phrases.Say("day-unread", "the day of this test can't be read, so it is not compared with other tests of this person")
	dayMissing      = phrases.Phrase("day-missing", "this test has no day, and the same test stands with another result in {Cell}, so it is not compared with it")
	addDay          = phrases.Say("add-day", "add the test date")
	laterThanRoster = phrases.Say("later-than-roster", "later than the roster")
	earlierIsLater  = phrases.Phrase("earlier-is-later", "the test in the earlier workbook is later than this one ({Cell}, {Day})")
	fixEarlierLater = phrases.Say("fix-earlier-is-later", "correct the test date that is wrong, or exchange the two workbooks")
	sheetsExchanged = phrases.Phrase("sheets-exchanged", "the sheets are named {One} and {Other}, but this test is later than the one in {Cell} ({Day})")
	fixSheets       = phrases.Say("fix-sheets-exchanged", "correct the test date that is wrong, or the names of the sheets")
)

var (
	manyProblems    = phrases.Phrase("many-problems", "there are more than {Most} problems; the rest of them are not listed")
	fixManyProblems = phrases.Say("fix-many-problems", "correct these first")
)

// DayUnknown is why a visit is not compared that has no day.
var DayUnknown = phrases.Say("day-unknown", "the day of this test is not known")
