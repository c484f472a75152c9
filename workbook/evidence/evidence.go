// Package evidence judges what the columns of a sheet hold by all that is known of
// them: header, number format, values, the columns beside them and the ages.
//
// For each column it lists the possible readings and strikes out those that some
// evidence contradicts. If one is left the column is read by it, else the column
// is asked about.
package evidence

import (
	"cmp"
	"math"
	"slices"
	"time"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// Column is a column of a sheet. Judge may change how it is read.
type Column struct {
	Header  string // the text that its meaning comes from
	Meaning roster.Meaning
	Style   cell.TimeStyle
	Sexes   *cell.SexColumn  // of a column of sexes
	Dates   *cell.DateColumn // of a column of dates
	Context cell.DateContext // the same, without its order
	Order   cell.DateOrder   // given by the user, else found here
	Cells   []cell.Raw       // one a row, the same rows for all columns
	// Limits bound the times possible in a row; isTime is false if it holds none.
	Limits func(row int) (least, most time.Duration, isTime bool)
	Told   bool // Header is the user's own answer, which is not questioned

	Remark scoring.Said    // how it is read, if worth a remark
	Why    scoring.Said    // why it is asked about; zero if it is not
	Asked  []roster.Choice // the possible answers, the likeliest first
}

// Sheet is the columns of a sheet and what is known of its people.
type Sheet struct {
	Columns []*Column
	Ages    []float64 // one a row, in years; NaN where unknown
	School  bool      // people of unknown age may be children
}

// Judge decides how the columns are read.
func (s *Sheet) Judge() {
	for _, c := range s.Columns {
		m := c.Meaning
		if c.Dates != nil {
			s.judgeDates(c)
		}
		switch {
		case c.Told && (m.UnitGiven || c.Style != cell.Unsaid || m.Input == scoring.ShuttleLevel || m.Input == scoring.ShuttleLaps):
		case m.Role == roster.HeartRate:
			s.judgePulse(c)
		case m.Role == roster.Result || m.Role == roster.InputData && m.Input == scoring.Time:
			c.judgeTimes()
		case m.Role != roster.InputData:
		case m.Input == scoring.SexInput:
			c.judgeSexes()
		case m.Input == scoring.ShuttleLevel || m.Input == scoring.ShuttleLaps:
			c.judgeShuttles()
		case m.Input.Info().Unit == scoring.BeatsPerMinute:
			s.judgeBeats(c)
		}
	}
	// Stature first: a body mass is judged by it.
	for _, in := range []scoring.Input{scoring.Stature, scoring.Waist, scoring.BodyMass, scoring.Distance} {
		for _, c := range s.Columns {
			if c.Meaning.Role == roster.InputData && c.Meaning.Input == in && !(c.Told && c.Meaning.UnitGiven) {
				s.judgeSize(c)
			}
		}
	}
	s.judgeExchange()
}

// input returns the first column of an input that is not asked about, or nil.
func (s *Sheet) input(in scoring.Input) *Column {
	for _, c := range s.Columns {
		if c.Meaning.Role == roster.InputData && c.Meaning.Input == in && c.Why.IsZero() {
			return c
		}
	}
	return nil
}

// reading is one way to read a column.
type reading struct {
	meaning string // the known header for it
	example scoring.Said
	against int     // pieces of evidence that contradict it
	absurd  bool    // the values can't be that, whatever the user says
	off     float64 // how far the values are from what is usual
	use     func()  // reads the column so
	remark  scoring.Said
}

// decide reads the column by the one reading that nothing contradicts, or asks.
// The user may be right against some evidence, so a contradicted reading is a
// choice where no other is left. Values that are absurd in every reading have their
// trouble each.
func (c *Column) decide(why scoring.Said, all []reading) {
	all = slices.DeleteFunc(all, func(r reading) bool { return r.absurd })
	if len(all) == 0 {
		return
	}
	slices.SortStableFunc(all, func(a, b reading) int { return cmp.Or(cmp.Compare(a.against, b.against), cmp.Compare(a.off, b.off)) })
	left := 0
	for left < len(all) && all[left].against == 0 {
		left++
	}
	switch {
	case left == 1:
		if all[0].use != nil {
			all[0].use()
		}
		c.Remark = all[0].remark
		return
	case left > 1:
		all = all[:left]
	}
	c.Why = why
	for _, r := range all {
		c.Asked = append(c.Asked, roster.Choice{Meaning: r.meaning, Example: r.example})
	}
	if left == 0 {
		c.Asked = append(c.Asked, roster.Choice{Meaning: "ignore"})
	}
}

// number is a bare number of a column with its row.
type number struct {
	cell.Bare
	row int
}

// numbers returns the positive bare numbers of the column.
func (c *Column) numbers() (all []number) {
	for i, r := range c.Cells {
		if b, ok := cell.BareNumber(r); ok && b.Amount > 0 {
			all = append(all, number{b, i})
		}
	}
	return all
}

// median returns the middle of values, and NaN of none.
func median(values []float64) float64 {
	if len(values) == 0 {
		return math.NaN()
	}
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	return (sorted[(len(sorted)-1)/2] + sorted[len(sorted)/2]) / 2
}

// amounts returns the amounts of numbers.
func amounts(all []number) []float64 {
	values := make([]float64, len(all))
	for i, n := range all {
		values[i] = n.Amount
	}
	return values
}

// chance returns the probability that at most k of n independent trials with
// chance p succeed.
func chance(k, n int, p float64) float64 {
	sum, term := 0.0, math.Pow(1-p, float64(n))
	for i := 0; i <= k; i++ {
		sum += term
		term *= float64(n-i) / float64(i+1) * p / (1 - p)
	}
	return sum
}
