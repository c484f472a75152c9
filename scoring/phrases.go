package scoring

// What scores say besides numbers. Each stands here once; other languages have
// it in templates, under its ID.

// Why a test is not scored, and what would help.
var (
	sayNeeds         = phrase("needs", "{Test} needs the {Input}")
	sayAddColumn     = phrase("add-column", "add a column for the {Input}")
	sayFillIn        = phrase("fill-in", "fill in the {Input}")
	sayOutside       = phrase("outside-limits", "{Value} is outside {Low} to {High}: {Why}")
	sayOutsideBounds = phrase("outside-bounds", "{Value} is outside {Low} to {High}")
	sayCheckValue    = phrase("check-value", "check the value")
	sayCannotBe      = phrase("cannot-be", "{Test} gives a VO2max of {Value}, which cannot be")
	sayCheckResult   = phrase("check-result", "check the result and what goes with it")
	sayOtherSex      = phrase("other-sex", "the equation is for the other sex")
	sayNotForAge     = phrase("not-for-age", "{Test} is not meant for the age of {Age}")
	sayTestForAge    = phrase("test-for-age", "use a test for that age; this one is for {Ages}")
	sayNoNorms       = phrase("no-norms", "{Test} has no norms for this age")
	sayOtherTest     = phrase("other-test", "use another test")
	sayOnlyNamed     = phrase("only-named", "{Test} has no equation that is used unless it is named")
	sayNameOne       = phrase("name-one", "name one with --equation, or use another test")
	sayMedicine      = phrase("medicine", "a medicine that changes the heart rate makes a test by pulse read wrong")
	sayByTime        = phrase("by-time", "use a test by time or distance alone, if a clinician agrees")
	sayWasSteady     = phrase("was-steady", "the run was steady, and this equation is for an all-out run")
	sayWasAllOut     = phrase("was-all-out", "the run was all-out, and this equation is for a steady pace below maximum")
	sayTopMeasured   = phrase("top-measured", "the maximum heart rate was measured")
	sayCheckActivity = phrase("check-activity", "check the activity level")
	sayNoRise        = phrase("no-rise", "the heart rate does not rise with the load")
	sayCheckStages   = phrase("check-stages", "check the heart rates and loads of the stages")
	sayOneStage      = phrase("one-stage", "only one stage was done")
	saySeveralStages = phrase("several-stages", "several stages were done, and a line through them says more")
	sayWalkOrRun     = phrase("walk-or-run", "at this speed the sheet must say whether it was walked or run")
	sayAddGait       = phrase("add-gait", "add a column for walk or run")
	sayMixedGait     = phrase("mixed-gait", "some stages were walked and others run, and no line joins the two")
	sayOneGait       = phrase("one-gait", "keep stages of one kind")
	sayWasRun        = phrase("was-run", "it was run, and this is the cost of walking")
	sayWasWalked     = phrase("was-walked", "it was walked, and this is the cost of running")
	sayCheckLevel    = phrase("check-level", "check the level")
	sayLevelHas      = phrase("level-has", "level {Level} has {All} shuttles on a recording that starts at {Start} km/h, not {Shuttles}")
	sayCheckShuttle  = phrase("check-shuttle", "check the level and shuttle, and the start speed of the recording (8.0 or 8.5)")
	sayNoLevel       = phrase("no-level", "the first level was not finished, so there is no speed to score")
	sayRepeatTest    = phrase("repeat-test", "repeat the test, or use a walking or step test")
)

// How a value was looked up.
var (
	sayAsGiven        = phrase("as-given", "as given")
	sayActivityScores = phrase("activity-scores", "0, 0.32, 1.06, 1.76 or 3.03 for level 1 to 5")
	sayLine           = phrase("line", "least squares through (heart rate, uptake) {Points}")
	sayLevelFinished  = phrase("level-finished", "level {Level} finished")
	sayLevelWhole     = phrase("level-whole", "level {Level} finished (all {Shuttles} shuttles)")
	sayLevelBroken    = phrase("level-broken", "level {Level} not finished ({Shuttles} shuttles), so level {Counts} counts")
	sayLevelAndHalf   = phrase("level-and-half", "level {Level} and half of the next")
	sayLapsAreLevel   = phrase("laps-are-level", "{Laps} laps are level {Level} finished ({Sum} laps) on a recording that starts at {Start} km/h")
	sayLapsOn         = phrase("laps-on", "{Laps} laps on a recording that starts at {Start} km/h")
	saySpeedIsLevel   = phrase("speed-is-level", "{Speed} is level {Level}")
	sayStage          = phrase("stage", "stage {Stage} of a test that starts at 8.0 km/h")
)

// Details of remarks.
var (
	sayTestGave      = phrase("test-gave", "{Test}: {Value}")
	sayAges          = phrase("ages", "{Ages}")
	sayInput         = phrase("input", "{Input}")
	sayInputIs       = phrase("input-is", "{Input} {Value}")
	sayOfInput       = phrase("of-input", "{Input}: {Why}")
	sayFirstSecond   = phrase("first-second", "first {First}, second {Second}")
	saySecondTop     = phrase("second-top", "second {Second}, maximum {Maximum}")
	sayFlowDiffers   = phrase("flow-differs", "heart rate times stroke volume gives {Product}, not {Given}")
	sayUptakeDiffers = phrase("uptake-differs", "cardiac output times oxygen difference gives {Product}, not {Given}")
	sayJudgedAllOut  = phrase("judged-all-out", "all-out: {Rate} of about {Maximum}")
	sayJudgedSteady  = phrase("judged-steady", "steady: {Rate} of about {Maximum}")
	sayStart         = phrase("start", "8.0 km/h")
	sayMinutes       = phrase("minutes", "{Minutes} minutes")
	sayGiveOrTake    = phrase("give-or-take", "±{Value}")
)

// FillIn asks for an input that the sheet has an empty cell for.
func FillIn(in Input) Said { return sayFillIn.With(in) }

// limitPhrase declares why a limit is one; equations may share it.
func limitPhrase(why string) *Phrase {
	id := "limit-" + slug(why)
	for _, p := range Phrases() {
		if p.ID == id {
			return p
		}
	}
	return phrase(id, why)
}
