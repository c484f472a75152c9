package workbook

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/grid"
)

// titleDay is the test day that the lines above a header give.
type titleDay struct {
	day  time.Time // zero if there is none that can be used
	said Problem   // what to say of it; the zero Problem if nothing
}

// Ways in which a title has a date within other words. Each is read as a cell
// of its own, so that its meaning is settled in one place.
var (
	titleDates = []*regexp.Regexp{
		regexp.MustCompile(`\b\d{4}[-./]\d{1,2}[-./]\d{1,2}\b`),
		regexp.MustCompile(`\d{4} ?[年년] ?\d{1,2} ?[月월] ?\d{1,2} ?[日일]?`),
		regexp.MustCompile(`\b(?:\d{1,2}\. ?\d{1,2}\. ?(?:\d{4}|\d{2})|\d{1,2}/\d{1,2}/(?:\d{4}|\d{2})|\d{1,2}-\d{1,2}-(?:\d{4}|\d{2}))\b`),
		regexp.MustCompile(`\d{1,2}(?:st|nd|rd|th|er)?\.? (?:de |of )?\p{L}{3,12}\.?,? (?:de |del )?\d{4}`),
		regexp.MustCompile(`\p{L}{3,12}\.? \d{1,2}(?:st|nd|rd|th)?,? \d{4}`),
	}
	// severalDays are titles such as "11.–15. May 2026" and "11 and 12 May 2026".
	severalDays = regexp.MustCompile(`\b\d{1,2}(?:st|nd|rd|th|[./]\d{1,2}|\.? (\p{L}{3,12}))?\.? ?(?:-|to|bis|au|al|do|и|по|and|und|et|&|\+) ?\d{1,2}(?:st|nd|rd|th)?[./ ]`)
	monthOfYear = regexp.MustCompile(`(?:^| )\p{L}{3,12}\.? \d{4}(?:$|[ ,.)])|\d{4} ?[年년] ?\d{1,2} ?[月월]`)
	// otherDays are words that make a date something else than a test day.
	otherDays = regexp.MustCompile(`print|export|updated|version|as of|stand|gedruckt|erstellt|born|birth|geboren|imprim|mis a jour|actualiz|stampa|wydruk|school year|schuljahr|since|due|bis zum`)
)

// findTitleDay looks for the test day in the rows above the header.
func (rd *reader) findTitleDay(sheet string, above []headRow) titleDay {
	var found titleDay
	for _, row := range above {
		for i, c := range row.cells {
			texts := titleTexts(c.Raw)
			if row.isDateLabelled(rd, i) {
				texts = []cell.Raw{c.Raw}
			}
			p := Problem{Sheet: sheet, Cell: grid.At(c.Col, row.number), Read: cell.Display(c.Raw, rd.book.Date1904())}
			if !found.take(texts, rd.dateContext(), p, titleDays) {
				return found
			}
		}
	}
	if found.day.IsZero() {
		if vague := rd.vagueTitle(sheet, above); !vague.said.What.IsZero() {
			return vague
		}
		return rd.dayOfName(sheet)
	}
	return found
}

// take reads the dates of one text, which p points at. It ends the search, and
// keeps but what is to be said of it, where one can't be read or is another day
// than those before.
func (d *titleDay) take(dates []cell.Raw, ctx cell.DateContext, p Problem, several scoring.Said) (goOn bool) {
	for _, date := range dates {
		day, doubt := cell.ParseDate(date, ctx)
		switch {
		case doubt != nil:
			p.What, p.Fix = titleDayUnread.With(doubt.What), addTestDate
			*d = titleDay{said: p}
			return false
		case d.day.IsZero():
			p.What = titleDayTaken.With(day.Time)
			*d = titleDay{day.Time, p}
		case !d.day.Equal(day.Time):
			p.What, p.Fix = several, addTestDate
			*d = titleDay{said: p}
			return false
		}
	}
	return true
}

// dayOfName takes the day from the name of the sheet.
func (rd *reader) dayOfName(sheet string) titleDay {
	texts := titleTexts(cell.Raw{Kind: cell.Text, Text: sheet})
	if len(texts) != 1 {
		return titleDay{}
	}
	day, doubt := cell.ParseDate(texts[0], rd.dateContext())
	p := Problem{Sheet: sheet}
	if doubt != nil {
		p.What, p.Fix = nameDayUnread.With(doubt.What), addTestDate
		return titleDay{said: p}
	}
	p.What = nameDayTaken.With(day.Time)
	return titleDay{day: day.Time, said: p}
}

// dayOfHeaders takes the day from the headers of the results.
func (sr *sheetReader) dayOfHeaders() titleDay {
	var found titleDay
	for _, c := range sr.columns {
		if c.Meaning.Test == nil {
			continue
		}
		p := Problem{Sheet: sr.sheet.Name, Cell: sr.headerCell(c), Read: c.Header}
		if !found.take(titleTexts(cell.Raw{Kind: cell.Text, Text: c.Header}), sr.rd.dateContext(), p, headerDays) {
			return found
		}
	}
	return found
}

// titleTexts takes the dates out of a title.
func titleTexts(r cell.Raw) []cell.Raw {
	if r.Kind != cell.Text || len(r.Text) > maxHeader {
		return nil
	}
	s := cell.Fold(r.Text)
	if otherDays.MatchString(s) || spansDays(s) {
		return nil
	}
	for n, form := range titleDates {
		inWords := n > 2
		var all []cell.Raw
		for _, at := range form.FindAllStringIndex(s, 4) {
			if inWords && namesGroup(s[:at[0]]) {
				continue // "Class 7 May 2026"
			}
			raw := cell.Raw{Kind: cell.Text, Text: strings.TrimRight(s[at[0]:at[1]], ". ")}
			if _, doubt := cell.ParseDate(raw, cell.DateContext{}); doubt == nil || !inWords {
				all = append(all, raw)
			}
		}
		if len(all) > 0 {
			return all
		}
	}
	return nil
}

// spansDays tells whether a folded title names a range or a list of days.
func spansDays(s string) bool {
	s = titleDates[0].ReplaceAllString(s, "")
	for _, m := range severalDays.FindAllStringSubmatch(s, 4) {
		if m[1] == "" || namesMonth(" "+m[1]+" 2000") { // "12 minutes - 3 May" is one day
			return true
		}
	}
	return false
}

// namesGroup tells whether a text ends in a word that a number follows, such
// as class or week.
func namesGroup(s string) bool {
	words := strings.Fields(s)
	if len(words) == 0 {
		return false
	}
	last := strings.TrimRight(words[len(words)-1], ":.")
	if m, ok := knownHeadings().match(last); ok && m.Role == Group {
		return true
	}
	return slices.Contains([]string{"year", "stage", "stufe", "jahrgang", "jahrgangsstufe", "no", "nr"}, last)
}

// isDateLabelled tells that a cell stands beside the word for a test date.
func (h *headRow) isDateLabelled(rd *reader, i int) bool {
	if i == 0 || h.cells[i-1].Kind != cell.Text || h.cells[i].Kind == cell.Text && len(titleTexts(h.cells[i].Raw)) > 0 {
		return false
	}
	m, ok := rd.match(strings.TrimRight(h.cells[i-1].Text, ": "))
	return ok && m.Role == TestDate
}

// vagueTitle says that a title names a month or several days, which is no test
// day.
func (rd *reader) vagueTitle(sheet string, above []headRow) titleDay {
	for _, row := range above {
		for _, c := range row.cells {
			if c.Kind != cell.Text || len(c.Text) > maxHeader {
				continue
			}
			s := cell.Fold(c.Text)
			p := Problem{Sheet: sheet, Cell: grid.At(c.Col, row.number), Read: cell.Display(c.Raw, false), Fix: addTestDate}
			switch {
			case otherDays.MatchString(s):
			case spansDays(s) && (namesMonth(s) || len(datesIn(s)) > 0):
				p.What = titleLineDays
				return titleDay{said: p}
			case namesMonth(s):
				p.What = titleMonth
				return titleDay{said: p}
			}
		}
	}
	return titleDay{}
}

func datesIn(s string) (all []string) {
	for _, form := range titleDates {
		all = append(all, form.FindAllString(s, 2)...)
	}
	return all
}

// namesMonth tells whether a folded text has a month with its year.
func namesMonth(s string) bool {
	for _, m := range monthOfYear.FindAllString(s, 4) {
		m = strings.Trim(m, " ,.)")
		if strings.ContainsAny(m, "年년") {
			return true
		}
		if _, doubt := cell.ParseDate(cell.Raw{Kind: cell.Text, Text: "1 " + m}, cell.DateContext{}); doubt == nil {
			return true
		}
	}
	return false
}
