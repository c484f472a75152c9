// Package workbook reads rosters, however people keep them, into
// [scoring.Entry] values that remember their cells, and writes the results
// back beside what was there.
package workbook

import (
	"io"
	"path/filepath"

	"tenback/workbook/people"
	"tenback/workbook/reading"
	"tenback/workbook/result"
	"tenback/workbook/roster"
	"tenback/workbook/source"
)

// ReadOptions say how a roster is to be read where it leaves that open.
type ReadOptions = reading.Options

// Open reads the roster at path and compares its people. What is wrong with
// single cells, columns or rows is in the Problems of the roster and its rows. An
// error means that nothing could be read: a [*source.Error], or that of the
// Password option. A file that ends in .csv, .tsv or .txt is read as text, as one
// sheet with the name of the file; one that ends in .ods as an OpenDocument
// spreadsheet.
func Open(path string, opt ReadOptions) (*Roster, error) {
	f, size, err := source.OpenFile(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return openReader(path, f, size, opt)
}

// OpenEarlier reads an earlier workbook of the same people. Its sheets are named
// after the file, as in "[spring.xlsx]Squad".
func OpenEarlier(path string, opt ReadOptions) (*Roster, error) {
	opt.Sheets = nil // those of the roster
	r, err := Open(path, opt)
	if err != nil {
		return nil, err
	}
	r.NameAfter(filepath.Base(path))
	return r, nil
}

// openReader is Open on what is open already; path is only for messages.
func openReader(path string, r io.ReaderAt, size int64, opt ReadOptions) (*Roster, error) {
	read, err := reading.Open(path, r, size, opt)
	if err != nil {
		return nil, err
	}
	people.Compare(read)
	return read, nil
}

// Roster and the others are the model, which package roster declares.
type (
	Roster      = roster.Roster
	Sheet       = roster.Sheet
	Column      = roster.Column
	Meaning     = roster.Meaning
	Role        = roster.Role
	Row         = roster.Row
	Person      = roster.Person
	Problem     = roster.Problem
	Contact     = roster.Contact
	Typed       = roster.Typed
	Setting     = roster.Setting
	Fingerprint = roster.Fingerprint
	Finding     = roster.Finding
)

// Line and the others are declared by packages people and result.
type (
	Line    = people.Line
	Visit   = people.Visit
	Seasons = people.Seasons
	Outcome = result.Outcome
)

// The roles of columns.
const (
	Unknown       = roster.Unknown
	Ours          = roster.Ours
	Name          = roster.Name
	GivenName     = roster.GivenName
	FamilyName    = roster.FamilyName
	ID            = roster.ID
	Group         = roster.Group
	Birth         = roster.Birth
	TestDate      = roster.TestDate
	TestName      = roster.TestName
	Result        = roster.Result
	InputData     = roster.InputData
	Minutes       = roster.Minutes
	SecondsOf     = roster.SecondsOf
	ListNumber    = roster.ListNumber
	HeartRate     = roster.HeartRate
	Unscored      = roster.Unscored
	Other         = roster.Other
	AgeSex        = roster.AgeSex
	RestOf        = roster.RestOf
	Audience      = roster.Audience
	Language      = roster.Language
	Email         = roster.Email
	GuardianEmail = roster.GuardianEmail
	PagePassword  = roster.PagePassword
	levelPart     = roster.LevelPart
	shuttlePart   = roster.ShuttlePart
)

// The settings.
const (
	School    = roster.School
	Workplace = roster.Workplace
	Squad     = roster.Squad
)

// Settings lists the settings.
func Settings() []Setting { return roster.Settings() }

// ParseSetting reads a setting's name.
func ParseSetting(s string) (Setting, error) { return roster.ParseSetting(s) }

// CellCount is how many cells findings are about, a whole sheet as one.
func CellCount(findings []Finding) int { return roster.CellCount(findings) }

// WordsAlone returns a text with # in place of all that a roster says.
func WordsAlone(s string) string { return roster.WordsAlone(s) }
