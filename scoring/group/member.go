package group

import (
	"slices"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/reference"
)

// Member is one person of a roster, as far as the summary needs to know them.
type Member struct {
	Group string         // class, department or squad as in the roster; may be empty
	Score *scoring.Score // nil if nothing was read
	// LeftOut is why the person has no place in the tables, where the caller knows
	// better than the score. It counts only for people without one.
	LeftOut  Reason
	Presence change.Presence    // those who left are counted, and are in nothing else
	Change   *change.Comparison // with the person's own earlier test; may be nil
}

// Part is one of the three separate sets of people in a summary; no table mixes them.
type Part uint8

// The parts.
const (
	Adults   Part = iota // 18 and over, with a place among the five groups
	Youth                // under 18, with a side of the health line
	Unplaced             // everyone else of the roster; Reason says why
	partCount
)

// partKeys are the keys of the parts' labels.
var partKeys = [partCount]string{"adults", "youth", "unplaced"}

// Reason is why a person has no place in the tables.
type Reason uint8

// The reasons. A refusal for a medicine or another answer about health counts as
// NotUsable.
const (
	Unstated       Reason = iota // to be worked out from the score
	NoResult                     // no test result in the row
	Unreadable                   // a cell could not be read
	ValueMissing                 // a value that the test needs is not there
	NotUsable                    // outside what the test is for or what can be believed
	OwnNorms                     // a test with norms of its own, and no VO2max
	AgeMissing                   // VO2max but no age
	SexMissing                   // VO2max but no sex, so two readings and no single place
	NoTable                      // VO2max but no table for this age
	WithoutConsent               // nothing of the person may be used
	reasonCount
)

// reasonIDs are the reasons' stable short names.
var reasonIDs = [reasonCount]string{"unstated", "no-result", "unreadable", "value-missing", "not-usable", "own-norms", "age-missing", "sex-missing", "no-table", "without-consent"}

// person is what the summary uses of a member; fields of other parts are zero.
type person struct {
	part     Part
	group    int // place in the roll, or noGroup
	sex      scoring.Sex
	years    int
	vo2      scoring.VO2
	standing int       // place among the categories of the standing, counted from 0
	lines    []float64 // VO2max at which each category but the first opens for this person
	table    *reference.GroupTable
	test     *scoring.Test
	resting  *scoring.RestingReading
	reason   Reason
	presence change.Presence
	change   *change.Comparison
}

// personOf sorts a member into its part.
func personOf(m Member) person {
	p := person{part: Unplaced, presence: m.Presence, change: m.Change}
	if p.reason = placeless(m); p.reason != Unstated {
		return p
	}
	best, entry := m.Score.Best(), m.Score.Entry()
	age, _ := entry.Get(scoring.Age)
	p.sex, p.years = entry.Sex(), reference.WholeYears(age.Amount)
	p.vo2, p.test, p.resting = best.VO2, best.Test, m.Score.Resting
	if len(m.Score.Adults) == 1 {
		st := m.Score.Adults[0]
		p.part, p.standing, p.table = Adults, int(st.Group), st.Table
		row, _ := st.Table.Row(p.sex, p.years)
		for _, g := range reference.Groups()[1:] {
			p.lines = append(p.lines, float64(row.Reaches(g)))
		}
		return p
	}
	line := m.Score.Youth[0]
	p.part, p.lines = Youth, []float64{float64(line.Line)}
	if line.Above {
		p.standing = 1
	}
	return p
}

// placeless returns why a member has no place in the tables, or Unstated.
func placeless(m Member) Reason {
	why := worked(m.Score)
	if why != Unstated && m.LeftOut > Unstated && m.LeftOut < reasonCount {
		return m.LeftOut
	}
	return why
}

// worked reads the reason from the score.
func worked(s *scoring.Score) Reason {
	switch {
	case s == nil || s.Entry() == nil:
		return NoResult
	case s.Best() == nil:
		return unscored(s)
	case !s.Entry().Has(scoring.Age):
		return AgeMissing
	case s.Entry().Sex() == scoring.SexUnspecified:
		return SexMissing
	case len(s.Adults)+len(s.Youth) != 1:
		return NoTable
	}
	return Unstated
}

// unscored returns why there is no VO2max. A missing value comes before an unusable
// one, because it is easily filled in.
func unscored(s *scoring.Score) Reason {
	switch {
	case len(s.Norms) > 0:
		return OwnNorms
	case len(s.Refused) == 0:
		return NoResult
	case slices.ContainsFunc(s.Refused, func(r scoring.Refusal) bool { return r.Missing }):
		return ValueMissing
	}
	return NotUsable
}
