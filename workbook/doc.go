// Package workbook reads rosters, however people keep them, into
// [scoring.Entry] values that remember their cells, and writes the results
// back beside what was there.
package workbook

import "tenback/workbook/roster"

// The model, which package roster declares.
type (
	Roster       = roster.Roster
	Sheet        = roster.Sheet
	Column       = roster.Column
	Meaning      = roster.Meaning
	Role         = roster.Role
	Row          = roster.Row
	Person       = roster.Person
	Problem      = roster.Problem
	Contact      = roster.Contact
	Typed        = roster.Typed
	Setting      = roster.Setting
	PageSetting  = roster.PageSetting
	PageSettings = roster.PageSettings
	Fingerprint  = roster.Fingerprint
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
