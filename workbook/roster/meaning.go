package roster

import "tenback/scoring"

// Role is the kind of thing that a column holds.
type Role uint8

// The roles a column can have.
const (
	Unknown   Role = iota // not recognised: left alone
	Ours                  // a result column of an earlier run
	Name                  // whole name
	GivenName             // joined with FamilyName
	FamilyName
	ID
	Group // class, department or squad
	Birth
	TestDate
	TestName  // which test the Result column belongs to
	Result    // the result of the test named in the same row
	InputData // Meaning.Input
	Minutes   // first of a pair of cells that make a time
	SecondsOf // second of such a pair

	ListNumber // place in a list, an ID only if there is no other
	HeartRate  // resting or exercise heart rate, not known which
	Unscored   // result of a test that is not scored
	Other      // known and not used, such as a remark

	AgeSex // both in one cell, such as 34/F
	RestOf // inches beside the feet, pounds beside the stones, metres beside the laps

	Audience // who reads the person's page
	Language // of the person's page

	Email         // the person's own address
	GuardianEmail // address of a parent or guardian
	PagePassword  // of the person's page

	// LevelPart and ShuttlePart are a shuttle run only if side by side.
	LevelPart
	ShuttlePart
)

// IsPerson reports whether the column identifies the person of a row.
func (r Role) IsPerson() bool {
	return r == Name || r == GivenName || r == FamilyName || r == ID || r == ListNumber
}

// Meaning is what a column holds.
type Meaning struct {
	Role Role
	// Input is what InputData, Minutes and SecondsOf hold. A Result has one if
	// its header names it, as Time does, else scoring.InputCount.
	Input scoring.Input
	Unit  scoring.Unit // unit named by the header, or the input's own
	// Test is the field test that the header names; nil for a column that serves
	// any test of its row.
	Test *scoring.Test
	// Distance is that of a race in metres, if the header names it.
	Distance float64
	// LapMetres is the length of a lap where a distance is given in laps.
	LapMetres float64
	// UnitGiven is set where the header names the unit.
	UnitGiven bool
}

var roleNames = [...]string{Unknown: "not recognised, left alone", Ours: "result of an earlier run", Name: "name", GivenName: "given name",
	FamilyName: "family name", ID: "ID", Group: "group", Birth: "date of birth", TestDate: "test date", TestName: "which test",
	Result: "result of the test named in the row", Minutes: "minutes", SecondsOf: "seconds beside the minutes",
	ListNumber: "number in the list, not used", HeartRate: "heart rate, not clear which, not used", Unscored: "a test that is not scored", Other: "known, not used", AgeSex: "age and sex", RestOf: "inches beside the feet, pounds beside the stones or metres beside the laps", Audience: "who reads the page", Language: "language of the page",
	Email: "e-mail address", GuardianEmail: "e-mail address of a parent or guardian", PagePassword: "password of the page",
	LevelPart: "level of a shuttle run beside its shuttle", ShuttlePart: "shuttle beside the level of a shuttle run"}

// String returns the meaning in words.
func (m Meaning) String() string {
	s := ""
	if m.Role != InputData {
		s = roleNames[m.Role]
	} else {
		s = m.Input.Info().Name
	}
	switch {
	case m.Test != nil && m.Distance > 0:
		s = m.Test.Name + " over " + scoring.Q(m.Distance, scoring.Metres).String() + ": " + s
	case m.Test != nil:
		s = m.Test.Name + ": " + s
	}
	if m.LapMetres > 0 {
		return s + " in laps of " + scoring.Q(m.LapMetres, scoring.Metres).String()
	}
	if m.Role == InputData && m.Unit != scoring.NoUnit && m.Input != scoring.SexInput {
		s += " in " + m.Unit.String()
	}
	return s
}
