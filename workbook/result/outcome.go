package result

import (
	"cmp"
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/scoring/change"
	"tenback/scoring/fieldtests"
	"tenback/workbook/grid"
	"tenback/workbook/people"
	"tenback/workbook/roster"
)

// Outcome is a visit with a summary of its score. The score itself is computed where
// it is needed, because the scores of a large roster would take most of the memory.
type Outcome struct {
	people.Visit
	Test      *scoring.Test     // of the headline, or the first one read against norms; nil if nothing could be read
	TalkFirst []scoring.Reason  // reasons to talk to the person before a test, the gravest first
	Refused   []scoring.Refusal // tests that could not be scored
	Report    string            // file name of the person's page; empty if none was made
	Review    *change.Review    // against the person's earlier tests; nil if there are none
	Suits     []*scoring.Test   // tests that suit the person better than those refused, at most two
}

// New scores a visit. done lists the tests of the roster.
func New(v *people.Visit, options *scoring.Options, done []*scoring.Test) Outcome {
	score := options.Estimates(v.Scored())
	o := Outcome{Visit: *v, Refused: score.Refused, TalkFirst: v.Row.Entry.TalkFirst()}
	if len(score.Refused) > 0 {
		o.Suits = fieldtests.Suiting(v.Score(options), done)
	}
	switch best := score.Best(); {
	case best != nil:
		o.Test = best.Test
	case len(score.Norms) > 0:
		o.Test = score.Norms[0].Test
	}
	return o
}

// LeftOut reports whether no test of the visit could be read.
func (o *Outcome) LeftOut() bool { return o.Test == nil }

// Estimated reports whether some test gave a VO2max.
func (o *Outcome) Estimated() bool { return o.Test != nil && o.Test.Norm == nil }

// ClinicianFirst reports whether a clinician should see the person before another test.
func (o *Outcome) ClinicianFirst() bool {
	return len(o.TalkFirst) > 0 && o.TalkFirst[0].Advice == scoring.ClinicianFirst
}

// Comparison returns the change of VO2max since an earlier test; nil if there is none.
func (o *Outcome) Comparison() *change.Comparison {
	if o.Review == nil {
		return nil
	}
	return o.Review.Comparison
}

// Untested reports whether the roster has no result of the person at all.
func (o *Outcome) Untested() bool {
	return o.LeftOut() && !slices.ContainsFunc(o.Problems(), func(p roster.Problem) bool { return p.Blocking && !p.OnlyUntested })
}

// HasPage reports whether the person gets a page: everybody who was tested does, also
// without a number, unless consent is missing or a column waits for an answer first.
func (o *Outcome) HasPage() bool {
	if o.Withheld {
		return false
	}
	tested := len(o.Row.Entry.Trials) > 0 || o.Row.ResultUnread
	return !o.LeftOut() || tested && o.WhyLeftOut() != Unanswered
}

// IsUnread reports whether a problem is of a cell that could not be read and may have
// cost the score. A problem of the person, such as a missing result, is of none; nor
// is one that a refusal explains.
func (o *Outcome) IsUnread(p roster.Problem) bool {
	explained := func(r scoring.Refusal) bool { return o.isAt(p, r.Cell) }
	return p.Blocking && p.Read != "" && p.Cell != o.Row.Person.NameCell && slices.Contains(o.Row.Problems, p) && !slices.ContainsFunc(o.Refused, explained)
}

// isAt reports whether a problem is of a cell of the joined row.
func (o *Outcome) isAt(p roster.Problem, cell string) bool {
	sheet, address := o.place(cell)
	return cell != "" && sheet == p.Sheet && address == p.Cell
}

// IsPrivate reports whether a problem is not for a page that others may see: it quotes an
// answer or a note about health, or a value that is not believed, such as a child's body
// mass.
func (o *Outcome) IsPrivate(p roster.Problem) bool {
	e := &o.Row.Entry
	for in := range scoring.InputCount {
		if in.Info().YesNo && o.isAt(p, e.Cell(in)) {
			return true
		}
	}
	return slices.ContainsFunc(e.Notes, func(n scoring.DangerNote) bool { return o.isAt(p, n.Cell) }) ||
		slices.ContainsFunc(e.Doubts, func(d scoring.Doubt) bool { return !d.Unread && o.isAt(p, d.Cell) })
}

// Reason is why a visit was not scored.
type Reason uint8

// The reasons, the one to act on first.
const (
	WithoutConsent Reason = iota + 1 // see [people.Visit.Withheld]
	ToMend                           // a cell is wrong
	Unanswered                       // a column waits for an answer
	NeedsOtherTest                   // see [Problem.OtherTest]
	WithoutResult                    // no test was done, or none is typed yet
)

// WhyLeftOut returns why nothing could be scored; 0 if something was.
func (o *Outcome) WhyLeftOut() Reason {
	switch {
	case o.Withheld:
		return WithoutConsent
	case !o.LeftOut():
		return 0
	}
	why := WithoutResult
	for _, p := range o.Problems() {
		// A row without a result is pointed at by the name in it.
		empty := len(o.Row.Entry.Trials) == 0 && p.Cell == o.Row.Person.NameCell
		switch {
		case p.Waits:
			why = min(why, Unanswered)
		case p.OtherTest:
			why = min(why, NeedsOtherTest)
		case p.Blocking && !empty:
			why = ToMend
		}
	}
	return why
}

// Problems lists the problems of the rows, then the tests that could not be scored.
func (o *Outcome) Problems() []roster.Problem {
	// A cell that waits for an answer is named where it costs the score.
	problems := slices.DeleteFunc(slices.Clone(o.Row.Problems), func(p roster.Problem) bool { return p.Waits && !o.LeftOut() })
	problems = append(problems, o.doubts()...)
	for _, r := range o.Refused {
		if r.Doubt != nil {
			continue
		}
		p := roster.Problem{Blocking: true, OtherTest: r.OtherTest, Waits: r.Waits, What: r.Why, Fix: fieldtests.Advice(&r, o.Suits, o.ClinicianFirst())}
		p.Sheet, p.Cell = o.place(cmp.Or(r.Cell, r.ResultCell, o.Row.Person.NameCell))
		if !r.OtherTest && r.Cell != "" && o.hasProblemAt(p.Sheet, p.Cell) {
			continue
		}
		if r.Missing {
			if sheet, cell := o.emptyCell(r.Input, r.Test); cell != "" {
				if o.hasProblemAt(sheet, cell) {
					continue
				}
				p.Sheet, p.Cell, p.Fix, p.Answerable = sheet, cell, scoring.FillIn(r.Input), true
			} else if s := o.sheetCalled(p.Sheet); s != nil {
				p.Fix = s.OrRename(r.Fix)
			}
		}
		problems = append(problems, p)
	}
	return problems
}

// doubts lists the values that are not believed; those that cost a score are blocking.
func (o *Outcome) doubts() (all []roster.Problem) {
	for i := range o.Row.Entry.Doubts {
		d := &o.Row.Entry.Doubts[i]
		if d.Unread { // is among the problems of the row
			continue
		}
		p := roster.Problem{Read: d.Read, What: d.What, Fix: d.Fix, Answerable: d.Read != "", Doubtful: !d.Impossible,
			Blocking: slices.ContainsFunc(o.Refused, func(r scoring.Refusal) bool { return r.Doubt == d })}
		p.Sheet, p.Cell = o.place(d.Cell)
		all = append(all, p)
	}
	return all
}

// place splits the sheet from a cell of a joined row. The default is the sheet of
// the first row.
func (o *Outcome) place(cell string) (sheet, address string) {
	if at := strings.LastIndex(cell, "!"); at >= 0 {
		return cell[:at], cell[at+1:]
	}
	return o.Row.Sheet, cell
}

// sheetCalled returns the sheet of that name if it has a row of the outcome.
func (o *Outcome) sheetCalled(name string) *roster.Sheet {
	for _, line := range o.Lines() {
		if line.Sheet != nil && line.Sheet.Name == name {
			return line.Sheet
		}
	}
	return nil
}

// emptyCell returns the cell for a missing input in the first row whose sheet has a
// column for it. An age may also come from the date of birth.
func (o *Outcome) emptyCell(in scoring.Input, test *scoring.Test) (sheet, cell string) {
	for _, line := range o.Lines() {
		if line.Sheet == nil {
			continue
		}
		for _, c := range line.Sheet.Columns {
			serves := c.Meaning.Role == roster.InputData && c.Meaning.Input == in && (c.Meaning.Test == nil || c.Meaning.Test == test)
			if serves || in == scoring.Age && c.Meaning.Role == roster.Birth {
				return line.Sheet.Name, grid.At(c.Index, line.Row.Number)
			}
		}
	}
	return "", ""
}

// hasProblemAt reports whether reading found a problem in the cell, which then
// explains the missing input.
func (o *Outcome) hasProblemAt(sheet, cell string) bool {
	return slices.ContainsFunc(o.Row.Problems, func(p roster.Problem) bool {
		return p.Sheet == sheet && p.Cell == cell && p.Blocking
	})
}
