package heading

import "tenback/scoring"

var phrases = scoring.NewPhrasebook("roster.")

// Why a number without a unit can't be read.
var (
	unclearUnits = phrases.Phrase("two-units", "the header names both {First} and {Second}")
	InFeet       = phrases.Say("feet", "the header says feet, and a plain number may be feet or inches")
	InStones     = phrases.Say("stones", "the header says stones, and a plain number may be stones or pounds")
	lapLength    = phrases.Say("lap-length", "the header does not say how long a lap is")
	whoMeasured  = phrases.Say("who-measured", "the header does not say that a laboratory measured it, and an estimate is no result")
	walkOrRun    = phrases.Say("walked-or-run", "the header does not say whether this was run or walked; call it \"2 km walk\", \"1 mile walk\" or \"1 mile run\", or for a race of 2 km \"2 km run\"")
)
