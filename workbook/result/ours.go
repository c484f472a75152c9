package result

import (
	"maps"
	"math"
	"slices"
	"strings"
	"sync"

	"tenback/templates"
	"tenback/workbook/cell"
	"tenback/workbook/ooxml"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// search looks for the result columns of an earlier run in a sheet. Columns count
// from 1.
type search struct {
	headers map[int]int        // results by columns whose header is ours
	values  map[int][]cell.Raw // of the first rows below the header, by column
	found   map[int]int        // results by column
	placed  map[int]int        // columns by result
}

// Own returns the IDs of the result columns of an earlier run, by column counted
// from 1. It looks at the header row, at the first rows below it and at the named
// cells of the sheet. A copy of a result column has an empty ID.
//
// A name is believed if most of the sheet's names agree with what is in their
// columns, because some programs move columns without their names. A column with
// such a name is ours whatever its header, if an earlier run can have written its
// values. Without such names three columns prove that there are others: by headers
// whose wording is ours alone, or by texts below headers of ours. Then every header
// of ours counts, except on a column that may be the user's: one of another wording
// must hold texts of ours or be in its place among others.
func Own(head []ooxml.Cell, below [][]ooxml.Cell, named []ooxml.NamedCell) map[int]string {
	s := search{headers: map[int]int{}, values: map[int][]cell.Raw{}, found: map[int]int{}, placed: map[int]int{}}
	for _, c := range head {
		if n := resultIndex(cell.Label(c.Raw)); n >= 0 && c.Kind == cell.Text {
			s.headers[c.Col] = n
		}
	}
	for i, row := range below {
		for _, c := range row {
			if s.values[c.Col] == nil {
				s.values[c.Col] = make([]cell.Raw, len(below))
			}
			s.values[c.Col][i] = c.Raw
		}
	}
	own := map[int]string{}
	if s.byNames(named) || s.proven() {
		s.byHeaders()
		s.dropForeign()
	}
	for col, n := range s.found {
		own[col] = columns[n].id
	}
	for { // copies
		clear(s.placed)
		for col := range s.found {
			delete(s.headers, col)
			delete(s.values, col)
		}
		clear(s.found)
		if !s.proven() {
			return own
		}
		s.byHeaders()
		for col := range s.found {
			own[col] = ""
		}
	}
}

// take records that a column holds a result.
func (s *search) take(col, n int) { s.found[col], s.placed[n] = n, col }

// maxShift is the most columns that names are looked for beside their places.
const maxShift = 16

// byNames takes the columns of the named cells and reports whether the names were
// believed. Names that were left behind agree with other columns, all at one
// distance; three of them prove it.
func (s *search) byNames(named []ooxml.NamedCell) bool {
	at := map[int]int{} // columns by result
	for _, c := range named {
		if n := anchored(c.Name); n >= 0 && at[n] == 0 {
			at[n] = c.Col
		}
	}
	for round := 0; len(at) > 0; round++ {
		best, shift := 0, 0
		for d := range 2*maxShift + 1 {
			d = (d + 1) / 2 * (1 - d%2*2) // 0, -1, 1, -2 ...
			sum, agreeing := s.agreement(at, d)
			if sum > best && (d == 0 && round == 0 || agreeing >= 3) {
				best, shift = sum, d
			}
			if d == 0 && best > 0 && sum == agreeing {
				break // as a rule
			}
		}
		if best == 0 {
			break
		}
		s.takeNamed(at, shift)
	}
	believed := len(s.found) > 0
	for n, col := range at {
		if _, taken := s.found[col]; believed && !taken && s.inPlace(col, n) && s.agrees(at, 0, n) > 0 {
			s.take(col, n)
		}
	}
	return believed
}

// agreement counts the names that agree with the columns at a distance; sum is without
// those that disagree.
func (s *search) agreement(at map[int]int, shift int) (sum, agreeing int) {
	for n := range at {
		is := s.agrees(at, shift, n)
		sum, agreeing = sum+is, agreeing+max(is, 0)
	}
	return sum, agreeing
}

// takeNamed takes the columns at a distance that agree, then those without values,
// and leaves the other names.
func (s *search) takeNamed(at map[int]int, shift int) {
	headed := slices.Collect(maps.Values(s.headers))
	for want := 1; want >= 0; want-- {
		for _, n := range slices.Sorted(maps.Keys(at)) {
			if s.agrees(at, shift, n) == want && (want == 1 || !slices.Contains(headed, n)) {
				s.take(at[n]+shift, n)
			}
		}
	}
	for n := range s.placed {
		delete(at, n)
	}
}

// agrees returns 1 if the header or the values at a distance from the name of a result
// are the result's, -1 if they are others, and 0 if there are none. Numbers under a
// changed header can be the user's, so they must fit together or have more decimals
// than people type.
func (s *search) agrees(at map[int]int, shift, n int) int {
	col := at[n] + shift
	h, known := s.headers[col]
	if named, ok := at[h]; known && ok && h != n && named+shift != col {
		twin, headed := s.headers[named+shift]
		known = !headed || twin != h // else someone typed the header of another result
	}
	_, taken := s.found[col]
	good, bad := s.judge(col, n)
	value := func(id string) []cell.Raw { return s.values[at[numberOf(id)]+shift] }
	near, far := middle(value(vo2maxColumn), value(lowColumn), value(highColumn), value(sourceColumn))
	ours := good > bad
	switch {
	case taken:
		return -1
	case known && h == n:
		return 1
	case !known && good+bad == 0:
		return 0
	case slices.Contains([]string{vo2maxColumn, lowColumn, highColumn}, columns[n].id) && near+far > 0:
		ours = near > far
	case !slices.Contains([]string{"", formatText, formatPercent}, columns[n].format): // people type no shares of 1
		ours = ours && slices.ContainsFunc(s.values[col], isComputed)
	}
	if known || !ours {
		return -1
	}
	return 1
}

// isComputed reports whether a cell holds what nobody types: a text, or a number
// with many decimals.
func isComputed(r cell.Raw) bool {
	_, decimals, _ := strings.Cut(r.Text, ".")
	_, isNumber := amount(r)
	return !r.IsBlank() && !isNumber || len(decimals) > 3
}

// judge counts the values of a column that a result can and can't have written.
func (s *search) judge(col, n int) (good, bad int) {
	for _, r := range s.values[col] {
		switch {
		case r.IsBlank():
		case columns[n].holds(builtinTexts(), r):
			good++
		default:
			bad++
		}
	}
	return good, bad
}

// saysOurs reports whether a column has texts that a user does not write, and most
// others or nothing else.
func (s *search) saysOurs(col, n int) bool {
	ours := 0
	for _, r := range s.values[col] {
		if _, isNumber := amount(r); !isNumber && strings.Contains(r.Text, " ") && columns[n].holds(builtinTexts(), r) {
			ours++
		}
	}
	good, bad := s.judge(col, n)
	return ours > 0 && (bad == 0 || 2*ours > good+bad)
}

// proven reports whether the headers prove an earlier run.
func (s *search) proven() bool {
	proofs := map[int]bool{}
	for col, n := range s.headers {
		if columns[n].alone || s.saysOurs(col, n) {
			proofs[n] = true
		}
	}
	return len(proofs) >= 3
}

// byHeaders takes the columns that the headers name: those that are surely ours,
// then those in their places.
func (s *search) byHeaders() {
	for _, fits := range []func(col, n int) bool{
		func(_, n int) bool { return columns[n].alone }, s.inPlace, s.isMiddle, s.saysOurs, s.inPlace,
	} {
		for more := true; more; {
			more = false
			for _, col := range slices.Sorted(maps.Keys(s.headers)) {
				n := s.headers[col]
				_, taken := s.found[col]
				if !taken && s.placed[n] == 0 && fits(col, n) {
					s.take(col, n)
					more = true
				}
			}
		}
	}
	vo2max := numberOf(vo2maxColumn)
	for _, col := range slices.Sorted(maps.Keys(s.values)) { // under a header that someone changed
		_, known := s.headers[col]
		_, taken := s.found[col]
		if !known && !taken && s.placed[vo2max] == 0 && s.isMiddle(col, vo2max) {
			s.take(col, vo2max)
		}
	}
}

// inPlace reports whether a column is right behind a result that comes before n, or
// right before one that comes after it. Other values than ours count only between
// headers of ours, because a user's own table has other groups.
func (s *search) inPlace(col, n int) bool {
	before, left := s.found[col-1]
	after, right := s.found[col+1]
	next, headed := s.headers[col+1]
	good, bad := s.judge(col, n)
	return left && before < n && headed && next > n || good >= bad && (left && before < n || right && after > n)
}

// isMiddle reports whether a column of VO2max holds the middle of the likely range in
// each row.
func (s *search) isMiddle(col, n int) bool {
	near, far := s.middle(col)
	return columns[n].id == vo2maxColumn && near > 0 && far == 0
}

// middle counts the estimates of a column that are, and are not, the middle of the
// likely range found.
func (s *search) middle(col int) (near, far int) {
	value := func(id string) []cell.Raw { return s.values[s.placed[numberOf(id)]] }
	return middle(s.values[col], value(lowColumn), value(highColumn), value(sourceColumn))
}

// middle counts the values that are, and are not, the middle of the range of their
// row. A measured value is not counted, because it may be an input.
func middle(values, low, high, source []cell.Raw) (near, far int) {
	if low == nil || high == nil || source == nil {
		return 0, 0
	}
	for i, r := range values {
		x, ok := amount(r)
		least, okLeast := amount(low[i])
		most, okMost := amount(high[i])
		switch {
		case !ok || !okLeast || !okMost || !builtinTexts().namesTest(cell.Label(source[i])):
		case math.Abs(2*x-least-most) <= 0.3: // each may be rounded to tenths
			near++
		default:
			far++
		}
	}
	return near, far
}

// dropForeign gives back a column of VO2max that holds other values than ours.
func (s *search) dropForeign() {
	col := s.placed[numberOf(vo2maxColumn)]
	if near, far := s.middle(col); far > near {
		delete(s.found, col)
	}
}

// plainHeader returns a header without the number that a table adds to one that is
// taken: Group2.
func plainHeader(header string) string {
	return strings.TrimRight(strings.TrimSpace(header), "0123456789")
}

// resultIndex returns the index of the result column with a header in any language,
// or -1.
func resultIndex(header string) int {
	if at, ok := resultHeaders()[strings.ToLower(plainHeader(header))]; ok {
		return at
	}
	return -1
}

// resultHeaders maps lower-case headers to the indexes of their columns.
var resultHeaders = sync.OnceValue(func() map[string]int {
	places := map[string]int{}
	for i, c := range columns {
		for _, header := range sheetwords.Every(c.key("header")) {
			places[strings.ToLower(header)] = i
		}
	}
	return places
})

// Language returns the language of an earlier run's result columns; empty if
// there are none, or if their headers are the same in several languages.
func Language(r *roster.Roster) string {
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
		for _, c := range columns {
			n += headers[strings.ToLower(words.Say(c.key("header"), nil))]
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

// NamesReport reports whether a result column names the page.
func NamesReport(c *roster.Column) bool { return c.Own == reportColumn }
