// Package workbook reads rosters, however people keep them, into
// [scoring.Entry] values that remember their cells, and writes the results
// back beside what was there.
package workbook

import (
	"fmt"
	"time"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/workbook/cell"
)

// Roster is a workbook as read.
type Roster struct {
	Path     string
	Seen     Fingerprint // of the file as it was read
	Signed   bool        // digitally signed; what is written has no signature that holds
	Sheets   []*Sheet    // those that hold people and results, in the workbook's order
	Lists    []*Sheet    // lists of people without results; they complete what Sheets say of a person
	Pages    PageSettings
	Problems []Problem // of the file and its sheets; those of a row are with the row
	// WrongToday is the computer's date where it can't be right, and zero elsewhere.
	WrongToday time.Time

	in container
}

// Sheet is one worksheet that holds people.
type Sheet struct {
	Name      string
	HeaderRow int      // 1-based
	Columns   []Column // every headed column, left to right
	Rows      []Row
	file      string // of an earlier workbook; empty for a sheet of the roster itself
	unread    any    // see listUnrecognised; worked out once, for many rows may need it
	LastCol   int    // right edge, 1-based, of cells, merged ranges and tables, our own result columns left out
}

// Column is one headed column of a sheet.
type Column struct {
	Index   int // 1-based
	Header  string
	Meaning Meaning
}

// Role says what kind of thing a column holds.
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

	ListNumber // place in a list: tells people apart only where nothing else does
	HeartRate  // a heart rate that may be the resting or the exercise one
	Unscored   // result of a test that is not scored
	Other      // known, such as a remark, and not used

	AgeSex // both in one cell, such as 34/F
	RestOf // inches beside the feet, pounds beside the stones

	Audience // who reads the person's page
	Language // of the person's page

	Email         // the person's own address
	GuardianEmail // address of a parent or guardian
	PagePassword  // of the person's page

	// Level and Shuttle mean a shuttle run only side by side.
	levelPart
	shuttlePart
)

// Meaning is what a column was taken to be.
type Meaning struct {
	Role Role
	// Input is what InputData, Minutes and SecondsOf hold. A Result may have
	// one too, as a column called Time has; scoring.InputCount if not.
	Input scoring.Input
	Unit  scoring.Unit // unit named by the header, or the input's own
	// Test is the field test the column belongs to, where the header names
	// one; nil for a column that serves any test of its row.
	Test *scoring.Test
	// Distance is how far a race was, in metres, where the header says so.
	Distance float64
	// UnitGiven tells that the header names the unit.
	UnitGiven bool
}

var roleNames = [...]string{Unknown: "not recognised, left alone", Ours: "result of an earlier run", Name: "name", GivenName: "given name",
	FamilyName: "family name", ID: "ID", Group: "group", Birth: "date of birth", TestDate: "test date", TestName: "which test",
	Result: "result of the test named in the row", Minutes: "minutes", SecondsOf: "seconds beside the minutes",
	ListNumber: "number in the list, not used", HeartRate: "heart rate, not clear which, not used", Unscored: "a test that is not scored", Other: "known, not used", AgeSex: "age and sex", RestOf: "inches beside the feet, or pounds beside the stones", Audience: "who reads the page", Language: "language of the page",
	Email: "e-mail address", GuardianEmail: "e-mail address of a parent or guardian", PagePassword: "password of the page",
	levelPart: "level of a shuttle run beside its shuttle", shuttlePart: "shuttle beside the level of a shuttle run"}

// String says in words what a column was taken to be.
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
	if m.Role == InputData && m.Unit != scoring.NoUnit && m.Input != scoring.SexInput {
		s += " in " + m.Unit.String()
	}
	return s
}

// Row is one person on one line.
type Row struct {
	Sheet    string
	Number   int // 1-based row of the sheet
	Person   Person
	Entry    scoring.Entry
	Report   string // file name of the page, as the result column of an earlier run says; empty if it says nothing
	Problems []Problem

	birth      cell.Day // zero if not given
	birthCell  string
	testedCell string
	dayUnread  bool // there is a test date and it can't be read
	listed     bool // the ID is a place in a list
	sheetGroup bool // the group is only the sheet's name
}

// Person is who a row is about. The texts are data: never a path, never a
// formula.
type Person struct {
	Name     string
	ID       string
	Group    string
	NameCell string // the cell to point at for the person as such

	Audience Setting  // who reads the page; empty if not given
	Language string   // of the page, as ReadOptions.Language gave it; empty if not given
	Contact  *Contact // nil if nothing of it is given
}

// Label is how the person is called in lists: the name, else the ID.
func (p Person) Label() string {
	if p.Name != "" {
		return p.Name
	}
	return p.ID
}

// Problem is something in the workbook that could not be used, or was used
// with a doubt.
type Problem struct {
	Sheet string
	Cell  string       // empty for a whole sheet
	Read  string       // what stands there
	What  scoring.Said // why it can't be used
	Fix   scoring.Said // what to type instead; may be nothing
	// Blocking tells that a score may be missing because of it; otherwise it
	// is a remark.
	Blocking bool
	// OtherTest tells of what is blocking that no cell is wrong: the person needs
	// another kind of test.
	OtherTest bool
}

// Where is the cell with its sheet, or the sheet alone.
func (p Problem) Where() string {
	if p.Cell == "" {
		return p.Sheet
	}
	return p.Sheet + "!" + p.Cell
}

func (p Problem) String() string {
	s := p.Where()
	if p.Read != "" {
		s += fmt.Sprintf(" (%q)", p.Read)
	}
	s += ": " + p.What.String()
	if !p.Fix.IsZero() {
		s += "; " + p.Fix.String()
	}
	return s
}

// Outcome is what became of a [Visit]: what the result columns of all its rows
// are made from.
type Outcome struct {
	Person int           // who it is, as in the visit
	Sheet  *Sheet        // nil where the columns do not matter
	Row    *Row          // as in the visit
	More   []Line        // the other rows, as in the visit
	Test   *scoring.Test // that of the headline, or the first one read against norms; nil if nothing could be read
	Report string        // file name of the person's page; empty if none was made
	// Clinician tells that someone licensed should look at the person first.
	Clinician bool
	Review    *change.Review // against the person's earlier tests; nil if there are none
	// Uncompared says why there is no review, where there are earlier tests;
	// nothing otherwise.
	Uncompared scoring.Said

	options *scoring.Options
	score   *scoring.Score // nil where it is worked out each time
	refused bool           // some test could not be scored
}
