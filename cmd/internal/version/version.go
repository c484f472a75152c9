// Package version holds the version of the program.
package version

import "time"

// Number is the program's version.
const Number = "0.1.0"

// Made is the day of this version. An earlier computer date is wrong.
var Made = time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)

// Program returns the name and version, for the foot of a page.
func Program() string { return "tenback " + Number }
