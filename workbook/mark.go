package workbook

import (
	"slices"
	"strings"
	"unicode/utf8"

	"tenback/templates/wording"
	"tenback/workbook/grid"
	"tenback/workbook/splice"
)

// markAuthor is who the comments on marked cells are by.
const markAuthor = "tenback"

// longestMark bounds the text of one comment, in bytes. A box with more cannot
// be read at a glance.
const longestMark = 1000

// mark collects the comments of a sheet, the most important first: what each
// result column says, what to type into the cells that could not be used, and
// remarks. Each ends with what will become of it.
func (e *sheetEdit) mark(roster *Roster, words *sheetWords) {
	for _, c := range e.columns {
		e.marks = append(e.marks, splice.Comment{Row: e.headerRow, Col: c.col, Text: c.Explain})
	}
	problems := e.problems(roster)
	marked := map[splice.Address]int{} // place in e.marks
	for i, m := range e.marks {
		marked[splice.Address{Row: m.Row, Col: m.Col}] = i
	}
	for _, blocking := range []bool{true, false} {
		for _, p := range problems {
			at, ok := grid.ParseAddress(p.Cell)
			if p.Blocking != blocking || !ok { // what concerns a whole sheet has no cell
				continue
			}
			text := words.mark(p)
			n, again := marked[at]
			switch {
			case !again:
				marked[at] = len(e.marks)
				e.marks = append(e.marks, splice.Comment{Row: at.Row, Col: at.Col, Text: shorten(text, longestMark)})
			case !strings.Contains(e.marks[n].Text, text):
				e.marks[n].Text = shorten(e.marks[n].Text+"\n"+text, longestMark)
			}
		}
	}
	for i := range e.marks {
		e.marks[i].Text += "\n" + words.say("sheet.mark.kept", nil)
	}
}

// problems lists those of the sheet and of its rows.
func (e *sheetEdit) problems(roster *Roster) []Problem {
	all := slices.Clone(roster.Problems)
	for _, sheet := range roster.Sheets {
		if sheet.Name != e.name {
			continue
		}
		for i := range sheet.Rows {
			if o := e.outcomes[sheet.Rows[i].Number]; o != nil {
				all = append(all, o.Problems()...)
			}
		}
	}
	return slices.DeleteFunc(all, func(p Problem) bool { return p.Sheet != e.name })
}

// mark tells what is wrong and, on a line of its own, what to type. A
// remark asks for nothing.
func (w *sheetWords) mark(p Problem) string {
	text := sentence(w.Said(p.What))
	if fix := w.Said(p.Fix); p.Blocking && fix != "" {
		text += "\n" + sentence(fix)
	}
	return text
}

// sentence gives a capital and a full stop.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	s = wording.Capital(s)
	if last, _ := utf8.DecodeLastRuneInString(s); !strings.ContainsRune(".?!…", last) {
		s += "."
	}
	return s
}
