package cell

import (
	"regexp"
	"sync"
)

// Pattern returns a regular expression that is compiled on first use, because
// compiling all of them would slow every start of the program.
func Pattern(expr string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })
}
