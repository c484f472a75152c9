package result

import (
	"tenback/templates"
	"tenback/workbook/sheetwords"
)

// sheetWords are the words of a set with what is worked out from them.
type sheetWords struct{ *sheetwords.Words }

// wordsOf returns the words of a set, or the English ones if set is nil.
func wordsOf(set *templates.Set) *sheetWords { return &sheetWords{sheetwords.Of(set)} }
