package scoring

import "tenback/scoring/reference"

// lowResult is a trial whose result is below what healthy people of the same age, sex
// and size reach.
type lowResult struct {
	trial  *Trial
	result Result
	said   Said
}

// lowResults lists them in the order of the sheet.
func (e *Entry) lowResults() (all []lowResult) {
	for i := range e.Trials {
		t := &e.Trials[i]
		result, ok := t.ResultOf()
		if !ok || t.Test.LowerLimit == nil {
			continue
		}
		limit, known := t.Test.LowerLimit(e)
		if q, _ := t.Get(result.Input); known && q.Amount < limit.In(q.Unit) {
			all = append(all, lowResult{t, result, sayBelowLimit.With(t.Test, q, limit)})
		}
	}
	return all
}

// checkLow flags a headline that would reassure somebody with a low result.
func (s *Score) checkLow() {
	reassures := false
	for _, st := range s.Adults {
		reassures = reassures || st.Group >= reference.Third
	}
	if !reassures {
		return
	}
	for _, low := range s.entry.lowResults() {
		s.Flags = append(s.Flags, Flag{FlagLowerReading, low.said})
	}
}
