package batch

import (
	"fmt"
	"slices"
	"strings"

	"golang.org/x/text/cases"

	"tenback/cmd/internal/terminal"
	"tenback/cmd/internal/version"
	"tenback/workbook"
	"tenback/workbook/cell"
)

// Texts about people for whom no cell can be mended.
const (
	OtherTest        = "Another kind of test is needed"
	OtherTestHeading = OtherTest + "; nothing in the sheet is wrong:"
	NeedOtherTest    = "for whom another kind of test is needed"
)

// PagesNotLocked warns about a roster with a password.
const PagesNotLocked = "the pages have no password, unlike the workbook; keep them where only those who need them can read them"

// ClockIgnored follows a ClockText where a roster is only read.
const ClockIgnored = "dates in the sheet are not compared with it. Correct it"

// ClockText says that the computer's date is wrong; it is empty if it may be
// right.
func ClockText(roster *workbook.Roster) string {
	if roster.WrongToday.IsZero() {
		return ""
	}
	return fmt.Sprintf("this computer's date, %s, is wrong: it is before tenback %s was made, on %s",
		roster.WrongToday.Format(terminal.DayForm), version.Number, version.Made.Format(terminal.DayForm))
}

// Place says where a person is in the roster.
func Place(row *workbook.Row) string { return fmt.Sprintf("%s row %d", row.Sheet, row.Number) }

// PeopleText counts people, and their visits where some have several.
func PeopleText(visits, people int) string {
	text := terminal.Count(people, "person", "people")
	if visits == people {
		return text
	}
	return terminal.Count(visits, "visit", "visits") + " of " + text
}

// CountPeople returns the number of people that outcomes are about.
func CountPeople(outcomes []workbook.Outcome) int {
	people := map[int]bool{}
	for i := range outcomes {
		people[outcomes[i].Person] = true
	}
	return len(people)
}

// CountPages returns the number of outcomes with a page.
func CountPages(outcomes []workbook.Outcome) int {
	n := 0
	for i := range outcomes {
		if outcomes[i].Report != "" {
			n++
		}
	}
	return n
}

// TalkText returns the gravest advice for a person with all reasons; it is empty if
// there are none.
func TalkText(o *workbook.Outcome) string {
	var why []string
	for _, r := range o.TalkFirst {
		why = append(why, r.Why.String())
	}
	if len(why) == 0 {
		return ""
	}
	return o.TalkFirst[0].Advice.Said().String() + ": " + strings.Join(why, "; ")
}

// namesMost bounds the names of pages, or characters, listed in a sentence.
const namesMost = 8

// listed joins the first names and counts the others.
func listed(names []string, separator string) string {
	text := strings.Join(names[:min(namesMost, len(names))], separator)
	if more := len(names) - namesMost; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// NoFont names characters that no font has.
func NoFont(characters []rune) string {
	var names []string
	for _, r := range slices.Compact(slices.Sorted(slices.Values(characters))) {
		names = append(names, string(r))
	}
	return "no font has " + listed(names, " ") + "; a box is printed instead"
}

// String counts the pages and those written now.
func (w *Work) String() string {
	text := terminal.Count(len(w.Made)+w.Kept, "page file", "page files")
	switch {
	case w.Kept == 0:
	case len(w.Made) == 0:
		text += ", unchanged"
	default:
		text += fmt.Sprintf(": %d made, %d unchanged", len(w.Made), w.Kept)
	}
	if w.Unscored > 0 {
		text += fmt.Sprintf("; %d without a number: why, and what to do", w.Unscored)
	}
	return text
}

// StaleText names the stale pages; it is empty if there is none.
func (w *Work) StaleText() string {
	switch len(w.Stale) {
	case 0:
		return ""
	case 1:
		return w.Stale[0] + ": made earlier, for a person without a page now; not removed"
	}
	return listed(w.Stale, ", ") + ": made earlier, for people without a page now; not removed"
}

// SameName returns a name or ID without what does not matter when they are
// compared, such as characters that the terminal does not show.
func SameName(text string) string { return cases.Fold().String(cell.Clean(text)) }
