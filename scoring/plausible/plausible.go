// Package plausible judges whether what a sheet says of a person can be. It knows
// no equation of a test: bounds come from published growth references, records and
// percentiles, and lie where hardly anybody is beyond them.
package plausible

import (
	"slices"

	"tenback/scoring"
)

// checks looks for values that do not fit, each by the bounds of its subject. A later
// one does not use what an earlier one doubts.
var checks = []func(j *judge){checkBody, checkResting, checkPulses, checkSpeed, checkShuttles, checkStages, checkEstimates}

// judge collects the doubts about an entry.
type judge struct {
	*scoring.Entry
	doubts []scoring.Doubt
}

// Judge adds the doubts about an entry to those that its group gives rise to. A
// confirmed value is in doubt only if it cannot be.
func Judge(e *scoring.Entry) {
	j := &judge{Entry: e, doubts: e.Doubts}
	for _, find := range checks {
		e.Doubts = j.doubts
		find(j)
	}
	j.tellResults()
	e.Doubts = j.doubts
}

// add adds a doubt about values of a trial, or of the person where it is nil.
func (j *judge) add(impossible bool, trial *scoring.Trial, what scoring.Said, inputs ...scoring.Input) {
	of := &j.Values
	if trial != nil {
		of = &trial.Values
	}
	if !impossible && slices.ContainsFunc(inputs, of.Confirmed) || j.doubted(trial, inputs[0]) {
		return
	}
	d := scoring.Doubt{Trial: trial, Inputs: inputs, Cell: of.Cell(inputs[0]), Read: of.Text(inputs[0]), Impossible: impossible, What: what, Fix: fixImpossible}
	if !impossible {
		d.Fix = fixDoubtful
	}
	j.doubts = append(j.doubts, d)
}

// tellResults adds to each doubtful finding what the result would be, or that the value
// changes none.
func (j *judge) tellResults() {
	if len(j.doubts) == 0 {
		return
	}
	j.Doubts = j.doubts
	refused := scoring.Options{}.Estimates(j.Entry).Refused
	whole := *j.Entry
	whole.Doubts = slices.DeleteFunc(slices.Clone(j.doubts), func(d scoring.Doubt) bool { return !d.Impossible })
	would := scoring.Options{}.Estimates(&whole).Estimates
	for i := range j.doubts {
		d := &j.doubts[i]
		at := slices.IndexFunc(refused, func(r scoring.Refusal) bool { return r.Doubt == d })
		switch {
		case d.Unread:
		case at < 0:
			d.What = notUsed.With(d.What)
		case !d.Impossible:
			if k := slices.IndexFunc(would, func(e scoring.Estimate) bool { return e.Test == refused[at].Test }); k >= 0 {
				d.What = wouldBe.With(d.What, would[k].Test, scoring.Number{Amount: float64(would[k].VO2), Decimals: 1})
			}
		}
	}
}

// age returns the age in decimal years, and whether it is known and believed.
func (j *judge) age() (float64, bool) {
	q, ok := j.Get(scoring.Age)
	return q.Amount, ok && !j.doubted(nil, scoring.Age)
}

// sex returns 1 for men and 0 for women, and whether it is known.
func (j *judge) sex() (float64, bool) {
	q, ok := j.Get(scoring.SexInput)
	return q.Amount, ok
}
