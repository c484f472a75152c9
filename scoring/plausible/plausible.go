// Package plausible judges whether what a sheet says of a person can be. It knows
// no equation of a test: bounds come from published growth references, records and
// percentiles, and lie where hardly anybody is beyond them.
package plausible

import (
	"slices"

	"tenback/scoring"
)

// check looks for values that do not fit.
type check struct {
	source string // of its bounds
	find   func(j *judge)
}

// noSource marks bounds that are ours.
const noSource = "common practice, no source"

// checks holds every check of a single entry.
var checks = []check{
	{noSource, massOfStature},
}

// judge collects the doubts about an entry.
type judge struct {
	*scoring.Entry
	doubts []scoring.Doubt
}

// Judge sets the doubts about an entry. A confirmed value is in doubt only if it
// cannot be.
func Judge(e *scoring.Entry) {
	j := &judge{Entry: e}
	for _, c := range checks {
		c.find(j)
	}
	e.Doubts = j.doubts
	j.tellResults()
}

// add adds a doubt about values of a trial, or of the person where it is nil.
func (j *judge) add(impossible bool, trial *scoring.Trial, what scoring.Said, inputs ...scoring.Input) {
	of := &j.Values
	if trial != nil {
		of = &trial.Values
	}
	if !impossible && slices.ContainsFunc(inputs, of.Confirmed) {
		return
	}
	d := scoring.Doubt{Trial: trial, Inputs: inputs, Cell: of.Cell(inputs[0]), Read: of.Text(inputs[0]), Impossible: impossible, What: what, Fix: fixImpossible}
	if !impossible {
		d.Fix = fixDoubtful
	}
	j.doubts = append(j.doubts, d)
}

// tellResults adds to each doubtful finding what the result would be.
func (j *judge) tellResults() {
	if len(j.doubts) == 0 {
		return
	}
	all := *j.Entry
	all.Doubts = slices.DeleteFunc(slices.Clone(j.doubts), func(d scoring.Doubt) bool { return !d.Impossible })
	score := scoring.Assess(&all)
	for i := range j.doubts {
		d := &j.doubts[i]
		for k := range score.Estimates {
			if est := &score.Estimates[k]; !d.Impossible && (d.Trial == nil || d.Trial.Test == est.Test) {
				d.What = wouldBe.With(d.What, est.Test, scoring.Number{Amount: float64(est.VO2), Decimals: 1})
				break
			}
		}
	}
}

// age returns the age in decimal years, and whether it is known.
func (j *judge) age() (float64, bool) {
	q, ok := j.Get(scoring.Age)
	return q.Amount, ok
}
