package source

import "tenback/scoring"

var phrases = scoring.NewPhrasebook("roster.")

var (
	noEncoding     = phrases.Say("no-encoding", "the file does not state its character encoding; it was read as Western European")
	fixEncoding    = phrases.Say("fix-encoding", "if they look wrong, save the file as \"CSV UTF-8\"")
	joinedLines    = phrases.Say("joined-lines", "a quotation mark joins several lines to one cell")
	fixJoinedLines = phrases.Say("fix-joined-lines", "if they are rows of their own, delete the quotation mark at the beginning")
	openQuote      = phrases.Say("open-quote", "a quotation mark begins the cell and is never closed; it was taken as a character")
	fixOpenQuote   = phrases.Say("fix-open-quote", "delete it, or close it")
)
