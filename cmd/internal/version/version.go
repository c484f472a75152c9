// Package version tells which program made a page.
package version

import "time"

// Number is the program's version.
const Number = "0.1.0"

// Made is the day on which this version was made. A computer whose date is
// before it is set wrong.
var Made = time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC)

// Program is the name and version, for the foot of a page.
func Program() string { return "tenback " + Number }
