package starter

import (
	"tenback/templates"
	"tenback/workbook/sheetwords"
)

// sheetWords adds the headers of starter rosters to the words of a set.
type sheetWords struct{ *sheetwords.Words }

// wordsOf returns the words of a set, or the English ones if set is nil.
func wordsOf(set *templates.Set) *sheetWords { return &sheetWords{sheetwords.Of(set)} }
