package plausible

import "tenback/scoring"

var phrases = scoring.NewPhrasebook("odd.")

// What to do about a doubt, and what the result would be.
var (
	fixImpossible = phrases.Say("fix-impossible", "correct the value that is wrong")
	fixDoubtful   = phrases.Say("fix-doubtful", "correct it, or confirm it: answer that it is right as it is, or write yes in a column \"Checked\" of this row")
	wouldBe       = phrases.Phrase("would-be", "{What}; as it is, {Test} would give a VO2max of {Value}")
)

// What does not fit.
var (
	massStature = phrases.Phrase("mass-stature", "{Mass} and {Stature} do not belong to one body")
)
