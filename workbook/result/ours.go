package result

import (
	"slices"
	"strings"
	"sync"

	"tenback/templates"
	"tenback/workbook/roster"
	"tenback/workbook/sheetwords"
)

// OurColumns returns the rising indexes of an earlier run's result columns in a header
// row; none if there was no earlier run.
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

// ourRun returns the result columns of the block that begins at start.
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

// oursFrom returns adjacent headers from a place on that are ours in rising order,
// beginning with result column number next or a later one.
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

// NamesReport reports whether a result column with this header names the page.
func NamesReport(header string) bool {
	i := resultIndex(header)
	return i >= 0 && columns[i].id == reportColumn
}
