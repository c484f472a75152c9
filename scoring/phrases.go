package scoring

// What scores say besides numbers.

// Why a test is not scored, and what would help.
var (
	sayNeeds         = phrase("needs", "{Test} needs the {Input}")
	sayAddColumn     = phrase("add-column", "add a column for the {Input}")
	sayFillIn        = phrase("fill-in", "fill in the {Input}")
	sayOutside       = phrase("outside-limits", "{Value} is outside {Low} to {High}: {Why}")
	sayOutsideBounds = phrase("outside-bounds", "{Value} is outside {Low} to {High}")
	sayCheckValue    = phrase("check-value", "check the value")
	sayCannotBe      = phrase("cannot-be", "{Test} gives a VO2max of {Value}, which cannot be")
	sayTooLow        = phrase("too-low", "{Test} gives {Value}: its equation does not reach so far down")
	sayCheckResult   = phrase("check-result", "check the result and what goes with it")
	sayOtherSex      = phrase("other-sex", "the equation is for the other sex")
	sayNotForAge     = phrase("not-for-age", "{Test} is not meant for the age of {Age}")
	sayTestForAge    = phrase("test-for-age", "use a test for that age; this one is for {Ages}")
	sayTestForAges   = phrase("test-for-ages", "use a test for that age; this one is for {Ages} and {More}")
	sayNoNorms       = phrase("no-norms", "{Test} has no norms for this age")
	sayOtherTest     = phrase("other-test", "use another test")
	sayOnlyNamed     = phrase("only-named", "{Test} has no equation that is used unless it is named")
	sayNameOne       = phrase("name-one", "name one with the setting \"Equation\", or use another test")
	sayMedicine      = phrase("medicine", "a medicine that changes the heart rate makes a test by pulse read wrong")
	sayUnclear       = phrase("unclear", "this is neither a clear yes nor a clear no, so it counts as yes")
	sayYesOrNo       = phrase("yes-or-no", "ask the person, and type yes or no")
	sayHealthUnread  = phrase("health-unread", "a column that asks about health is not understood, and this test is by pulse or all-out")
	sayWhatAsked     = phrase("what-asked", "say what the column asks, in the questions file or by its header")
	sayByTime        = phrase("by-time", "use a test that neither reads the pulse nor goes all-out, if a clinician agrees")
)

// Details of remarks.
var (
	sayBetterAttempt = phrase("better-attempt", "attempt {Attempt} of {Attempts}, the better one")
	sayLastAttempt   = phrase("last-attempt", "attempt {Attempt} of {Attempts}, the last complete one")
	sayTestGave      = phrase("test-gave", "{Test}: {Value}")
	sayInput         = phrase("input", "{Input}")
	sayInputIs       = phrase("input-is", "{Input} {Value}")
	sayOfInput       = phrase("of-input", "{Input}: {Why}")
	sayBelowLimit    = phrase("below-limit", "{Test} {Value}, and nearly all healthy people of this age, sex and size reach {Limit}")
	sayFirstSecond   = phrase("first-second", "first {First}, second {Second}")
	saySecondTop     = phrase("second-top", "second {Second}, maximum {Maximum}")
	sayFlowDiffers   = phrase("flow-differs", "heart rate times stroke volume gives {Product}, not {Given}")
	sayUptakeDiffers = phrase("uptake-differs", "cardiac output times oxygen difference gives {Product}, not {Given}")
)

// Why somebody should talk to a person first.
var (
	sayInhaler       = phrase("inhaler", "{Input}: inhaler at hand, long warm-up")
	sayNotClear      = phrase("not-clear", "{Input}: the answer is not clear; ask")
	sayNotClearWords = phrase("not-clear-words", "{Input}: {Words} is not a clear answer; ask")
	sayNoted         = phrase("noted", "{Input}: {Words}")
	sayNotedInTest   = phrase("noted-in-test", "{Input}, during the test: {Words}")
	sayNoTest        = phrase("no-test", "{Input} {Value}: no test of any kind today")
	sayAgain         = phrase("again", "{Input} {Value}: measure again after five quiet minutes")
	sayFastForAge    = phrase("fast-for-age", "{Input} {Value}, faster than 97.5% of this age: count again after five quiet minutes")
)

// adviceSaid is what holds until somebody has talked to the person.
var adviceSaid = [...]Said{
	OnlyTalk:       phrase("only-talk", "talk first").With(),
	NotAllOut:      phrase("not-all-out", "no all-out test today").With(),
	ClinicianFirst: phrase("clinician-first", "a clinician first").With(),
}

// AsGiven says that a value was taken from the sheet.
var AsGiven = phrase("as-given", "as given").With()

// FillIn asks for an input that the sheet has an empty cell for.
func FillIn(in Input) Said { return sayFillIn.With(in) }

// Phrase returns why the limit is one, as a phrase; limits of several equations
// may share it.
func (l Limit) Phrase() *Phrase { return &Phrase{ID: "limit-" + slug(l.Why), English: l.Why} }
