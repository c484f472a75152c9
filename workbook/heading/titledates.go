package heading

import (
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode"

	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// Dates within a title. Each is parsed as a cell of its own.
var (
	titleDates = []func() *regexp.Regexp{
		cell.Pattern(`\b\d{4}[-./]\d{1,2}[-./]\d{1,2}\b`),
		cell.Pattern(`\d{4} ?[年년] ?\d{1,2} ?[月월] ?\d{1,2} ?[日일]?`),
		cell.Pattern(`\b(?:\d{1,2}\. ?\d{1,2}\. ?(?:\d{4}|\d{2})|\d{1,2}/\d{1,2}/(?:\d{4}|\d{2})|\d{1,2}-\d{1,2}-(?:\d{4}|\d{2}))\b`),
		cell.Pattern(`\d{1,2}(?:st|nd|rd|th|er)?\.? (?:de |of )?\p{L}{3,12}\.?,? (?:de |del )?(?:\d{4}|\d{2}\b)`),
		cell.Pattern(`\p{L}{3,12}\.? \d{1,2}(?:st|nd|rd|th)?,? \d{4}`),
		cell.Pattern(`\p{L}{3,12}\.? \d{1,2}/\d\d\b`),
	}
	monthFirst = cell.Pattern(`^(\p{L}+)\.? (\d{1,2})/(\d\d)$`)
	// severalDays matches titles such as "11.–15. May 2026" and "11 and 12 May
	// 2026".
	severalDays = cell.Pattern(`\b\d{1,2}(?:st|nd|rd|th|[./]\d{1,2}|\.? (\p{L}{3,12}))?\.? ?(?:-|to|bis|au|al|do|и|по|and|und|et|&|\+) ?\d{1,2}(?:st|nd|rd|th)?[./ ]`)
	monthOfYear = cell.Pattern(`(?:^| )\p{L}{3,12}\.? \d{4}(?:$|[ ,.)])|\d{4} ?[年년] ?\d{1,2} ?[月월]`)
	// otherDays matches words that make a date something other than a test day.
	otherDays = cell.Pattern(`week beg|wk beg|w/c|week comm|beginning|print|export|updated|version|as of|stand|gedruckt|erstellt|born|birth|geboren|imprim|mis a jour|actualiz|stampa|wydruk|school year|schuljahr|since|due|bis zum`)
)

// Dates returns the dates in a title, each as a cell of its own.
func Dates(r cell.Raw) []cell.Raw {
	if r.Kind != cell.Text || len(r.Text) > MaxLen {
		return nil
	}
	s := cell.Fold(r.Text)
	if otherDays().MatchString(s) || spansDays(s) {
		return nil
	}
	for n, form := range titleDates {
		inWords := n > 2
		var all []cell.Raw
		for from := 0; from < len(s) && len(all) < 4; {
			at := form().FindStringIndex(s[from:])
			if at == nil {
				break
			}
			start, end := from+at[0], from+at[1]
			from = end
			if inWords && namesGroup(s[:start]) {
				continue // "Class 7 May 2026"
			}
			raw := cell.Raw{Kind: cell.Text, Text: monthFirst().ReplaceAllString(strings.TrimRight(s[start:end], ". "), "$2 $1 $3")} // "Oct 8/24"
			switch _, doubt := cell.ParseDate(raw, cell.DateContext{}); {
			case doubt == nil || !inWords:
				all = append(all, raw)
			default:
				from = start + 1 // "1st attempt 14 Jan 25"
			}
		}
		if len(all) > 0 {
			return all
		}
	}
	return nil
}

// spansDays reports whether a folded title names a range or a list of days.
func spansDays(s string) bool {
	s = titleDates[0]().ReplaceAllString(s, "")
	for _, m := range severalDays().FindAllStringSubmatch(s, 4) {
		if m[1] == "" || namesMonth(" "+m[1]+" 2000") { // "12 minutes - 3 May" is one day
			return true
		}
	}
	return false
}

// namesGroup reports whether a text ends in a word before a number, such as class
// or week.
func namesGroup(s string) bool {
	words := strings.Fields(s)
	if len(words) == 0 {
		return false
	}
	last := strings.TrimRight(words[len(words)-1], ":.")
	if m, ok := known().match(last); ok && m.Role == roster.Group {
		return true
	}
	return slices.Contains([]string{"year", "stage", "stufe", "jahrgang", "jahrgangsstufe", "no", "nr"}, last)
}

// Vague is what a title names instead of one day.
type Vague uint8

// What a title may name.
const (
	NoDay Vague = iota
	SeveralDays
	MonthOnly
)

// VagueDay returns what a title names instead of a test day.
func VagueDay(text string) Vague {
	if len(text) > MaxLen {
		return NoDay
	}
	switch s := cell.Fold(text); {
	case otherDays().MatchString(s):
	case spansDays(s) && (namesMonth(s) || len(datesIn(s)) > 0):
		return SeveralDays
	case namesMonth(s):
		return MonthOnly
	}
	return NoDay
}

func datesIn(s string) (all []string) {
	for _, form := range titleDates {
		all = append(all, form().FindAllString(s, 2)...)
	}
	return all
}

// namesMonth reports whether a folded text has a month with its year.
func namesMonth(s string) bool {
	for _, m := range monthOfYear().FindAllString(s, 4) {
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

// weekdays are the beginnings of the names of weekdays, from Monday, by language.
var weekdays = [][7]string{
	{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}, {"montag", "dienstag", "mittwoch", "donnerstag", "freitag", "samstag", "sonntag"},
	{"lundi", "mardi", "mercredi", "jeudi", "vendredi", "samedi", "dimanche"}, {"lunes", "martes", "miercoles", "jueves", "viernes", "sabado", "domingo"},
	{"lunedi", "martedi", "mercoledi", "giovedi", "venerdi", "sabato", "domenica"}, {"segunda", "terca", "quarta", "quinta", "sexta", "sabado", "domingo"},
	{"maandag", "dinsdag", "woensdag", "donderdag", "vrijdag", "zaterdag", "zondag"}, {"mandag", "tirsdag", "onsdag", "torsdag", "fredag", "lordag", "sondag"},
	{"mandag", "tisdag", "onsdag", "torsdag", "fredag", "lordag", "sondag"}, {"poniedzialek", "wtorek", "sroda", "czwartek", "piatek", "sobota", "niedziela"},
	{"pondeli", "utery", "streda", "ctvrtek", "patek", "sobota", "nedele"}, {"maanantai", "tiistai", "keskiviikko", "torstai", "perjantai", "lauantai", "sunnuntai"},
}

// ParseDay parses a date of a title. Where day and month may be exchanged, a
// weekday in the title decides.
func ParseDay(date cell.Raw, title string, ctx cell.DateContext) (cell.Day, *cell.Doubt) {
	day, doubt := cell.ParseDate(date, ctx)
	if doubt == nil {
		return day, nil
	}
	var fits []cell.Day
	for _, order := range []cell.DateOrder{cell.DayFirst, cell.MonthFirst} {
		ctx.Order = order
		if d, wrong := cell.ParseDate(date, ctx); wrong == nil && namesWeekday(title, d.Time.Weekday()) {
			fits = append(fits, d)
		}
	}
	if len(fits) == 1 {
		return fits[0], nil
	}
	return day, doubt
}

func namesWeekday(title string, day time.Weekday) bool {
	for _, w := range strings.FieldsFunc(cell.Fold(shorten(title)), func(r rune) bool { return !unicode.IsLetter(r) }) {
		for _, names := range weekdays {
			if name := names[(day+6)%7]; strings.HasPrefix(w, name) {
				return true
			}
		}
	}
	return false
}
