package main

import (
	"fmt"
	"runtime"
	"strings"
	"unicode"

	"tenback/workbook"
)

// How days and times of day are written.
const (
	dayForm   = "2 January 2006"
	clockForm = "15:04:05"
)

// count writes a number with its noun, or with noun and verb.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// placeOf is where a person stands in the roster.
func placeOf(row *workbook.Row) string { return fmt.Sprintf("%s row %d", row.Sheet, row.Number) }

// asArgument writes a path as it is typed in a command: in double quotes, which
// every shell knows, if it holds more than plain signs, and in single ones where
// a part of it would act within double ones.
func asArgument(path string) string {
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
