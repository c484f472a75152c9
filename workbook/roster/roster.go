// Package roster holds a workbook as read: its sheets, columns, rows and people,
// and what could not be used.
package roster

import (
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/locked"
)

// Roster is a workbook as read.
type Roster struct {
	Path      string
	Seen      Fingerprint // of the file as it was read
	Signed    bool        // digitally signed; writing voids the signature
	Sheets    []*Sheet    // with people and results, in the workbook's order
	Lists     []*Sheet    // lists of people without results; they complete what Sheets say of a person
	Settings  SettingValues
	Problems  []Problem       // of the file and its sheets; those of a row are with the row
	Questions []Question      // about columns, in the order of the sheets
	Unused    map[string]bool // places of answers that were not used
	// WrongToday is the computer's date if it can't be right, else zero.
	WrongToday time.Time

	In    Container
	Bound Bound
}

// MaxProblems bounds the problems of rows listed for one workbook.
const MaxProblems = 100_000

// Bound counts the problems of rows.
type Bound struct{ said int }

// Admit counts a problem, and reports whether it may still be listed.
func (b *Bound) Admit() bool {
	b.said++
	return b.said <= MaxProblems
}

// Exceeded reports whether some problems were not listed.
func (b *Bound) Exceeded() bool { return b.said > MaxProblems }

// Container is the kind of file that the workbook was read from.
type Container struct {
	Text     bool          // a text file, which results cannot be written into
	Scheme   locked.Scheme // zero without a password
	Password string
}

// DefaultPassword opens workbooks that are encrypted only to protect them against
// changes. Spreadsheet programs try it before they ask ([MS-OFFCRYPTO] 2.4.2.3).
const DefaultPassword = "VelvetSweatshop"

// Locked reports whether the roster needs a password that someone must type.
func (r *Roster) Locked() bool { return r.In.Scheme != 0 && r.In.Password != DefaultPassword }

// Sheet is one worksheet that holds people.
type Sheet struct {
	Name      string
	HeaderRow int      // 1-based
	Columns   []Column // every headed column, left to right
	Rows      []Row
	File      string // of an earlier workbook; empty for a sheet of the roster itself
	unread    any    // unrecognised columns, as a value of a slot; nil if there are none
	LastCol   int    // 1-based right edge of cells, merged ranges and tables without our result columns
}

// Column is one headed column of a sheet.
type Column struct {
	Index   int // 1-based
	Header  string
	Meaning Meaning
	Values  []string // the first three, as displayed
	Filled  int      // cells with something below the header
	// Own is the ID of the result column that a column of role Ours is. It is empty
	// for a copy of one.
	Own string
}

// ColumnOf returns the headed column of an index.
func (s *Sheet) ColumnOf(index int) *Column {
	at, _ := slices.BinarySearchFunc(s.Columns, index, func(have Column, want int) int { return have.Index - want })
	return &s.Columns[at]
}

// Unrecognised lists the columns whose headers were not recognised.
func (s *Sheet) Unrecognised() (all []Column) {
	for _, c := range s.Columns {
		if c.Meaning.Role == Unknown {
			all = append(all, c)
		}
	}
	return all
}

// ValuesShown is how many values of a column are shown, to recognise it by.
const ValuesShown = 3

// Show adds a displayed value to those shown, if it is another one.
func (c *Column) Show(value string) {
	if len(c.Values) < ValuesShown && value != "" && !slices.Contains(c.Values, value) {
		c.Values = append(c.Values, value)
	}
}

// Row is one row of a sheet, about one person.
type Row struct {
	Sheet  string
	Number int // 1-based row of the sheet
	Person Person
	Entry  scoring.Entry
	// ListNumber is the place in a list as typed, which is no ID.
	ListNumber string
	Report     string // file name of the page from an earlier run's result column; may be empty
	Problems   []Problem

	Birth      cell.Day // zero if not given
	BirthCell  string
	TestedCell string
	TestedRead string // the text of that cell
	// TestedConfirmed is set where the user said that the test date is right as it is.
	TestedConfirmed bool

	DayUnread bool // there is a test date and it can't be read
	// ResultUnread is set where a result was entered that could not be used.
	ResultUnread bool
	Listed       bool // the ID is a place in a list
	SheetGroup   bool // the group is only the sheet's name
}

// Person is who a row is about. The texts are data: never a path, never a
// formula.
type Person struct {
	Name     string
	ID       string
	Group    string
	NameCell string // the cell that identifies the person

	Audience Setting  // who reads the page; empty if not given
	Language string   // of the page; empty if not given
	Contact  *Contact // nil if not given
}

// Label returns the name of the person for lists, else the ID.
func (p Person) Label() string {
	if p.Name != "" {
		return p.Name
	}
	return p.ID
}
