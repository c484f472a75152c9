package reading

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/workbook/cell"
	"tenback/workbook/columns"
	"tenback/workbook/heading"
	"tenback/workbook/roster"
	"tenback/workbook/rowwords"
)

// sumsUp reports whether a row sums up others. Words decide, unless they may be a
// name or the row says what only a person has; else the shape decides: formulas
// over several rows, or numbers that are a statistic of their column.
func (sr *sheetReader) sumsUp(rr *rowReader, nobody bool) bool {
	raw := rr.raw
	sums := 0
	for _, c := range sr.Used {
		if raw.cells[c.Slot].Sums && !c.Meaning.Role.IsPerson() {
			sums++
		}
	}
	if !raw.summary && sums == 0 && !nobody && !sr.mostFacts || rr.hasFacts() {
		return false
	}
	is, sure := raw.summary, raw.summary
	if !nobody {
		is, sure = rowwords.IsSummary(rr.row.Person.Label())
		is = is || sr.mostFacts && rowwords.BeginsSummary(rr.row.Person.Label())
	}
	switch {
	case sure, sums > 0 && (is || nobody || sums > 1), is && sr.mostFacts:
		return true
	case !is && !nobody:
		return false
	}
	filled, matched := sr.statistics(raw)
	return matched > 1 && matched == filled || is && matched > 0 && raw.afterGap
}

// hasFacts reports whether the row has a sex or a date of birth, which a sum has
// not.
func (rr *rowReader) hasFacts() bool {
	return slices.ContainsFunc(rr.survey.Used, func(c *columns.Column) bool {
		r := rr.raw.cells[c.Slot]
		switch {
		case r.IsBlank() || r.Sums:
			return false
		case c.Meaning.Role == roster.Birth:
			_, doubt := cell.ParseDate(r, rr.facts.DateContext(c))
			return doubt == nil
		case c.Meaning.Role == roster.InputData && c.Meaning.Input == scoring.SexInput:
			sex, doubt := c.Sexes.ParseSex(r)
			return doubt == nil && sex != scoring.SexUnspecified
		}
		return false
	})
}

// statistics counts the numbers of a row, and those that are a statistic of their
// column.
func (sr *sheetReader) statistics(raw *rawRow) (filled, matched int) {
	for _, c := range sr.Used {
		x, ok := plainNumber(raw.cells[c.Slot])
		if !ok || c.Meaning.Role.IsPerson() || c.Meaning.Role == roster.Group {
			continue
		}
		filled++
		if slices.ContainsFunc(sr.statsOf[c], func(s float64) bool { return math.Abs(x-s) <= 0.005*math.Abs(s) }) {
			matched++
		}
	}
	return filled, matched
}

// weighRows works out, before rows are read and let go, what tells sums and
// headings from people.
func (sr *sheetReader) weighRows() {
	alone, odd := 0, false
	for i := range sr.body.rows {
		r := &sr.body.rows[i]
		odd = odd || r.summary || !sr.hasName(r)
		filled := 0
		for _, c := range r.cells {
			if !c.IsBlank() {
				filled++
			}
		}
		if filled == 1 {
			alone++
		}
	}
	sr.mostAlone = 2*alone > len(sr.body.rows)
	sr.mostFacts = sr.haveFacts() // of the columns as settled now
	for _, c := range sr.Used {
		if odd && !c.Meaning.Role.IsPerson() && c.Meaning.Role != roster.Group {
			sr.statsOf[c] = sr.statisticsOf(c)
		}
	}
}

// factsSample is how many rows are looked at, to know what a sheet says of people.
const factsSample = 50

// haveFacts reports whether most of the first rows have a sex or a date of birth.
func (sr *sheetReader) haveFacts() bool {
	rows := sr.body.rows[:min(len(sr.body.rows), factsSample)]
	with := 0
	for i := range rows {
		if sr.rowReader(&rows[i]).hasFacts() {
			with++
		}
	}
	return 3*with > 2*len(rows)
}

// statisticsOf returns the mean, extremes, median, sum, count and spread of a
// column; nil if it has few numbers.
func (sr *sheetReader) statisticsOf(c *columns.Column) []float64 {
	var all []float64
	sum, squares := 0.0, 0.0
	for i := range sr.body.rows {
		r := &sr.body.rows[i]
		if x, ok := plainNumber(r.cells[c.Slot]); ok && !r.summary && sr.hasName(r) {
			all = append(all, x)
			sum += x
			squares += x * x
		}
	}
	n := float64(len(all))
	if n < 2 {
		return nil
	}
	spread := math.Sqrt(max(0, squares-sum*sum/n) / (n - 1))
	return []float64{sum / n, slices.Min(all), slices.Max(all), change.Median(all), sum, n, spread}
}

// hasName reports whether a row has a name or an ID.
func (sr *sheetReader) hasName(r *rawRow) bool {
	return slices.ContainsFunc(sr.Used, func(c *columns.Column) bool { return c.Meaning.Role.IsPerson() && !r.cells[c.Slot].IsBlank() })
}

// plainNumber reads a number, or minutes and seconds as minutes.
func plainNumber(r cell.Raw) (float64, bool) {
	if r.Kind != cell.Number && r.Kind != cell.Text {
		return 0, false
	}
	minutes, seconds, isTime := strings.Cut(strings.ReplaceAll(r.Text, ",", "."), ":")
	x, err := strconv.ParseFloat(minutes, 64)
	if err == nil && isTime {
		var s float64
		s, err = strconv.ParseFloat(seconds, 64)
		x += s / 60
	}
	return x, err == nil
}

// isNote reports whether a row without a result is a remark or the heading of a
// group rather than a person.
func (sr *sheetReader) isNote(rr *rowReader, others int) bool {
	who, belowList := &rr.row.Person, rr.raw.afterGap || sr.below
	switch {
	case who.ID != "" || rr.hasFacts():
		return false
	case others > 0:
		return belowList && (rowwords.BeginsNote(who.Name) || cell.SaysNotTested(cell.Raw{Kind: cell.Text, Text: who.Name}))
	}
	if sr.mostFacts && (belowList || strings.ContainsAny(who.Name, "0123456789")) {
		return true // all others have a sex or a date of birth
	}
	words := strings.Fields(who.Name)
	return rowwords.IsNote(who.Name, belowList) || slices.Contains(sr.Titles, heading.Key(who.Name)) ||
		len(words) > 1 && len(words) < 5 && rowwords.NamesGroup(words[0]) && !sr.mostAlone
}
