package result

import (
	"slices"
	"strings"
	"sync"

	"tenback/scoring"
	"tenback/templates"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// ResultColumn is one column that is written into a roster.
type ResultColumn struct {
	ID      string // stable short name
	Header  string // as it stands in the sheet; columns are found again by it, in any language
	Explain string // what it says, for a guide
	Format  string // number format code; empty for the general one
	Seasons bool   // written only where someone has earlier tests
	Value   func(*Outcome, *scoring.Score) Value
}

// Value is what one result cell holds: a number, a text or nothing.
type Value struct {
	Number float64
	Text   string // always text, also where it looks like a formula
	kind   valueKind
}

type valueKind uint8

const (
	blank valueKind = iota
	number
	text
)

// NumberValue makes a Value that is a number; it must be finite.
func NumberValue(x float64) Value { return Value{Number: x, kind: number} }

// TextValue makes a Value that is a text; the empty text is nothing.
func TextValue(s string) Value {
	if s == "" {
		return Value{}
	}
	return Value{Text: s, kind: text}
}

// IsNumber tells whether the value is a number.
func (v Value) IsNumber() bool { return v.kind == number }

// IsBlank tells whether the value is nothing.
func (v Value) IsBlank() bool { return v.kind == blank }

// The number formats of result cells.
const (
	formatTenths = "0.0"
	formatWhole  = "0"
	formatText   = "@" // stays text when someone edits the cell

	formatSigned  = "+0.0;-0.0;0.0"
	formatPercent = "0%"
)

// reportColumn is the ID of the column that names a person's page.
const reportColumn = "report"

// resultColumns is the one declaration of what is written. Their order is
// their order in the sheet; their headers and explanations are words.
var resultColumns = []struct {
	id     string
	format string
	value  func(*sheetWords, *Outcome, *scoring.Score) Value
	// seasons marks a column that is written only where someone has earlier tests.
	seasons bool
}{
	{"vo2max", formatTenths, bestVO2, false},
	{"likely-low", formatTenths, likelyLow, false},
	{"likely-high", formatTenths, likelyHigh, false},
	{"estimated-from", "", estimatedFrom, false},
	{"group", "", groupText, false},
	{"percentile", formatWhole, percentile, false},
	{"next", "", nextGroup, false},
	{"decade-1", "", oneDecadeYounger, false},
	{"decade-2", "", twoDecadesYounger, false},
	{"resting", "", restingText, false},
	{reportColumn, formatText, reportName, false},
	{"flags", "", flagsText, false}, // the longest: most often nothing stands to the right of it
	{"change", formatSigned, changeValue, true},
	{"chance", formatPercent, changeChance, true},
	{"since", "", sinceText, true},
}

// ResultColumns lists the result columns in the order in which they are
// written, in the given words.
func ResultColumns(words *sheetwords.Words) []ResultColumn {
	return (&sheetWords{words}).resultColumns()
}

func (w *sheetWords) resultColumns() []ResultColumn {
	// Headers are those that come with the program, for they are how the columns
	// are found again, by whatever words that is done.
	heads := wordsOf(sheetwords.Builtin()[w.Set.Lang()])
	var all []ResultColumn
	for _, c := range resultColumns {
		all = append(all, ResultColumn{ID: c.id, Header: heads.Say("sheet."+c.id+".header", nil), Explain: w.OneLine("sheet."+c.id+".explain", nil),
			Format: c.format, Seasons: c.seasons, Value: func(o *Outcome, s *scoring.Score) Value { return c.value(w, o, s) }})
	}
	return all
}

// OurColumns finds the result columns of an earlier run in a header row and
// returns their indexes, rising; none if there was no earlier run.
//
// A roster may well have a "Group" or a "VO2max" column of its own, so a
// header alone proves nothing. Ours are at least three of our headers in our
// order, beginning with the first two side by side. Columns that someone put
// in between are stepped over, but behind such a gap two of ours must stand
// side by side to count.
func OurColumns(headers []string) []int {
	var ours []int
	for start := range headers {
		run := ourRun(headers, start)
		if len(run) >= 3 {
			for _, i := range run {
				if !slices.Contains(ours, i) {
					ours = append(ours, i)
				}
			}
		}
	}
	slices.Sort(ours)
	return ours
}

// ourRun collects the result columns of the block that begins at start.
func ourRun(headers []string, start int) []int {
	run, next := oursFrom(headers, start, 0)
	if len(run) < 2 || resultIndex(headers[run[1]]) != 1 || resultIndex(headers[run[0]]) != 0 {
		return nil
	}
	for i := run[len(run)-1] + 1; i < len(headers); {
		if resultIndex(headers[i]) == 0 {
			break // another block
		}
		piece, after := oursFrom(headers, i, next)
		if len(piece) >= 2 {
			run, next = append(run, piece...), after
		}
		i += max(1, len(piece))
	}
	return run
}

// oursFrom collects, from one place on, the headers side by side that are ours
// in rising order, beginning with result column number next or a later one.
func oursFrom(headers []string, from, next int) (run []int, after int) {
	for i := from; i < len(headers); i++ {
		at := resultIndex(headers[i])
		if at < next {
			break
		}
		run, next = append(run, i), at+1
	}
	return run, next
}

// plainHeader is a header without the number that it got in a table where it was
// taken: Group2.
func plainHeader(header string) string {
	return strings.TrimRight(strings.TrimSpace(header), "0123456789")
}

// resultIndex is the place of a header among the result columns, in any
// language, or -1.
func resultIndex(header string) int {
	if at, ok := resultHeaders()[strings.ToLower(plainHeader(header))]; ok {
		return at
	}
	return -1
}

// resultHeaders are the places of the result columns by their headers in small
// letters.
var resultHeaders = sync.OnceValue(func() map[string]int {
	places := map[string]int{}
	for i, c := range resultColumns {
		for _, header := range sheetwords.Every("sheet." + c.id + ".header") {
			places[strings.ToLower(header)] = i
		}
	}
	return places
})

// ResultLanguage is the language of the result columns that an earlier run left;
// empty if there are none, or if their headers are the same in several languages.
func ResultLanguage(r *roster.Roster) string {
	headers := map[string]int{}
	for _, s := range r.Sheets {
		for _, c := range s.Columns {
			if c.Meaning.Role == roster.Ours {
				headers[strings.ToLower(plainHeader(c.Header))]++
			}
		}
	}
	best, most, alone := "", 0, false
	for _, lang := range templates.Languages() {
		words, n := wordsOf(sheetwords.Builtin()[lang]), 0
		for _, c := range resultColumns {
			n += headers[strings.ToLower(words.Say("sheet."+c.id+".header", nil))]
		}
		if n >= most {
			best, most, alone = lang, n, n > most
		}
	}
	if !alone {
		return ""
	}
	return best
}

// isReportColumn tells whether a result column of this header names the page.
func IsReportColumn(header string) bool {
	i := resultIndex(header)
	return i >= 0 && resultColumns[i].id == reportColumn
}
