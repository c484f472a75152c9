// Package version tells which program made a page.
package version

// Number is the program's version.
const Number = "0.1.0"

// String is the version as printed.
func String() string { return Number }

// Program is the name and version, for the foot of a page.
func Program() string { return "tenback " + Number }
