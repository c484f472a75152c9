package roster

import "tenback/scoring"

// Question asks about a column whose header and values do not agree on what it
// holds. Nothing is scored from the column until it is answered.
type Question struct {
	Sheet   string
	Cell    string // of the header
	Header  string
	Values  []string     // up to three, as displayed
	What    scoring.Said // why it is asked
	Choices []Choice     // at least one; the likeliest first
}

// Choice is a possible answer to a Question.
type Choice struct {
	// Meaning is the known header to read the column by, or "ignore".
	Meaning string
	// Example is what a row of the sheet would then hold; may be zero.
	Example scoring.Said
}
