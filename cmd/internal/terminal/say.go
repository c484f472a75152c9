package terminal

import (
	"fmt"
	"runtime"
	"strings"
	"unicode"
)

// Layouts of days and times of day.
const (
	DayForm   = "2 January 2006"
	ClockForm = "15:04:05"
)

// Count returns a number with its noun, or with noun and verb.
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// Argument quotes a path for a command line: in double quotes, which every shell
// knows, or in single quotes if double ones would expand a part of it.
func Argument(path string) string {
	switch {
	case runtime.GOOS != "windows" && strings.ContainsAny(path, "$`\"\\!"):
		return "'" + strings.ReplaceAll(path, "'", `'\''`) + "'"
	case strings.ContainsFunc(path, func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune(`._-+,@/\:`, r)
	}):
		return `"` + path + `"`
	}
	return path
}
