package heading

import (
	"slices"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/roster"
)

// special recognises health questions, and what is known and not used.
func (s *said) special() (Heading, bool) {
	plain := func(r roster.Role) (Heading, bool) { return Heading{Meaning: roster.Meaning{Role: r}}, true }
	if in, ok := s.health(); ok {
		if s.strange(false) {
			return Heading{}, false
		}
		return Heading{Meaning: roster.Meaning{Role: roster.InputData, Input: in}}, true
	}
	isMeasured := s.core(func(m roster.Meaning) bool { return m.Test != nil && m.Test.Measured })
	if isMeasured || s.has(uptake) {
		return s.uptake(isMeasured)
	}
	numbered := s.has(idWord) && s.core(func(m roster.Meaning) bool { return m.Role == roster.ListNumber || m.Role == roster.ID })
	email := s.core(func(m roster.Meaning) bool { return m.Role == roster.Email || m.Role == roster.GuardianEmail })
	spare := idWord | core | occasion | end | rest | before | attempt | best | person | lab | activities | testName
	for i := range s.pieces {
		p := &s.pieces[i]
		switch {
		case p.is(sport|unsupported) && !p.is(activities|core|testName|filler):
			return plain(roster.Unscored)
		case p.is(guardian) && !p.is(core) && email && !s.strange(false):
			return plain(roster.GuardianEmail)
		case p.is(guardian|elsePerson|doctor) && !p.is(core|person|guardianOK(email)):
			return plain(roster.Other)
		case p.inside && s.core(func(m roster.Meaning) bool { return m.Role == roster.InputData && m.Input == scoring.SexInput }):
		case p.is(other) && p.is(end|rest|before) && !p.is(core|occasion) && !s.core(s.isPulse):
			return plain(roster.Other)
		case p.is(other) && p.is(filler) && s.core(func(m roster.Meaning) bool { return m.Role == roster.Name || m.Role == roster.FamilyName }):
		case p.is(other) && (!p.is(spare) || p.is(idWord) && !numbered && !p.is(spare&^idWord)):
			return plain(roster.Other)
		}
	}
	return Heading{}, false
}

// uptake reads a column of VO2max, which is measured only if the header says so.
func (s *said) uptake(isMeasured bool) (Heading, bool) {
	switch {
	case s.has(other):
		return Heading{Meaning: roster.Meaning{Role: roster.Other}}, true
	case s.strange(false) || s.strange(true) || s.has(activities&^(treadmill|cycle)) || s.done.test != nil && !s.done.test.Measured && !s.has(treadmill|cycle):
		return Heading{}, false
	case isMeasured, s.has(lab):
		var found []roster.Meaning
		for i := range s.pieces {
			found = append(found, s.pieces[i].meanings...)
		}
		test := fieldtests.Measured
		if s.has(cycle) || slices.ContainsFunc(found, func(m roster.Meaning) bool { return m.Test == fieldtests.MeasuredCycle }) {
			test = fieldtests.MeasuredCycle
		}
		found = slices.DeleteFunc(found, func(m roster.Meaning) bool { return m.Test == nil || !m.Test.Measured })
		for i := range found {
			found[i].Test = test
		}
		for _, r := range test.Results {
			found = append(found, roster.Meaning{Role: roster.InputData, Input: r.Input, Test: test})
		}
		s.findHints(found[0])
		return withHints(found, s.hints), true
	}
	return Heading{Meaning: roster.Meaning{Role: roster.Unscored}, Unclear: whoMeasured, Choices: []string{"Measured VO2max (mL/kg/min)"}}, true
}

func guardianOK(email bool) class {
	if email {
		return guardian
	}
	return 0
}

// core reports whether some piece has a meaning that fits.
func (s *said) core(fits func(roster.Meaning) bool) bool {
	return slices.ContainsFunc(s.pieces, func(p piece) bool { return slices.ContainsFunc(p.meanings, fits) })
}
