package plausible

import "tenback/scoring"

var phrases = scoring.NewPhrasebook("odd.")

// What to do about a doubt, and what the result would be.
var (
	fixImpossible = phrases.Say("fix-impossible", "correct the value that is wrong")
	fixDoubtful   = phrases.Say("fix-doubtful", "correct it, or confirm it: answer that it is right as it is, or write yes in a column \"Checked\" of this row")
	wouldBe       = phrases.Phrase("would-be", "{What}; as it is, {Test} would give a VO2max of {Value}")
	notUsed       = phrases.Phrase("not-used", "{What}; no result depends on it, and it is not used")
)

// What does not fit.
var (
	massStature    = phrases.Phrase("mass-stature", "{Mass} and {Stature} hardly belong to one person")
	forAge         = phrases.Phrase("for-age", "{Value} does not go with an age of {Years}")
	slowResting    = phrases.Phrase("slow-resting", "{Rate} at rest is slower than hearts of that age beat; it may have been counted over a shorter time")
	fastResting    = phrases.Phrase("fast-resting", "{Rate} is faster than hearts of that age beat at rest")
	slowUnfit      = phrases.Phrase("slow-unfit", "{Rate} at rest is known from endurance athletes, and the tests of this person are not those of one; it may have been counted over 30 seconds")
	pulseTooHigh   = phrases.Phrase("pulse-high", "{Rate} is faster than the heart beats in this test at that age")
	pulseBelowRest = phrases.Phrase("pulse-below-rest", "{Rate} in the test is slower than the {Resting} at rest")
	pulseTooLow    = phrases.Phrase("pulse-low", "{Rate} is hardly more than at rest; it may have been counted over a shorter time, or too late")
	tooFast        = phrases.Phrase("too-fast", "that is {Speed}, faster than nearly all of the best of that age and sex")
	notWalked      = phrases.Phrase("not-walked", "that is {Speed}, faster than people walk; it may have been run")
	tooSlow        = phrases.Phrase("too-slow", "that is {Speed}, slower than a stroll")
	tooMuchPower   = phrases.Phrase("too-much-power", "{Power} is more than a person of {Mass} holds in this test")
	tooManySteps   = phrases.Phrase("too-many-steps", "{Steps} are more than anybody makes in two minutes; each step of one leg counts")
	highVO2        = phrases.Phrase("high-vo2", "this gives a VO2max of {Value}, more than nearly all of the best of that age and sex have")
	fitForMass     = phrases.Phrase("fit-for-mass", "a VO2max of {Value} hardly goes with a body mass of {Mass}")
	fastForMass    = phrases.Phrase("fast-for-mass", "{Speed} hardly goes with a body mass of {Mass}")
	dayAlone       = phrases.Phrase("day-alone", "this test date is far from those of the others, who were tested about {Day}")
	ageAlone       = phrases.Phrase("age-alone", "an age of {Years} is far from those of the group, who are about {Age}")
	massAlone      = phrases.Phrase("mass-alone", "{Mass} is far from all others of the group, whose median is {Median}")
	testsApart     = phrases.Phrase("tests-apart", "the {Test} and the {Other} ({Value}, {Cell}) differ by more than their errors allow")
)
