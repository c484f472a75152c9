package heading

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// isPulse reports whether a meaning is a heart rate of some kind.
func (s *said) isPulse(m roster.Meaning) bool {
	return m.Role == roster.HeartRate || m.Role == roster.InputData &&
		(m.Input == scoring.RestingHR || m.Input == scoring.ExerciseHR || m.Input == scoring.RecoveryHR || m.Input == scoring.MaxHR)
}

// pulse finds when a heart rate was taken; ok is false if the words contradict
// each other.
func (s *said) pulse(m roster.Meaning) (roster.Meaning, bool) {
	later := false // such as 1 min after; a time up to half a minute is that of counting
	for _, t := range s.done.seconds {
		later = later || t > 30 && t <= 180 && !s.testTakes(t)
	}
	resting := s.has(rest)
	recovers := s.has(recovery) || later && (s.has(end|recovery|rest) || m.Role == roster.HeartRate)
	is := func(in scoring.Input) (roster.Meaning, bool) {
		if m.Role == roster.HeartRate || m.Input == in {
			return roster.Meaning{Role: roster.InputData, Input: in, Test: m.Test}, true
		}
		return m, false
	}
	switch t := s.done.test; {
	case m.Role != roster.HeartRate && !recovers && !resting:
		return m, true
	case m.Input == scoring.ExerciseHR && later && m.Role == roster.InputData:
		return roster.Meaning{Role: roster.InputData, Input: scoring.RecoveryHR}, true
	case recovers:
		return is(scoring.RecoveryHR)
	case resting && s.has(end) && t != nil && t.HasResult(scoring.RecoveryHR):
		return is(scoring.RecoveryHR)
	case resting && m.Role == roster.InputData && m.Input == scoring.MaxHR:
		return m, false
	case resting && s.endOnly() && !s.beforehand() && len(s.done.seconds) == 0:
		return m, false
	case resting:
		return is(scoring.RestingHR)
	case s.has(maximum) && !s.endOnly():
		return is(scoring.MaxHR)
	case s.beforehand():
		return m, false
	case s.has(end) && t != nil && !t.Takes(scoring.ExerciseHR) && t.Takes(scoring.RecoveryHR):
		return is(scoring.RecoveryHR)
	case s.has(end), t == nil && s.has(activities):
		return is(scoring.ExerciseHR)
	}
	return m, true
}

// beforehand reports whether a piece says that a pulse was taken before the test.
func (s *said) beforehand() bool {
	return slices.ContainsFunc(s.pieces, func(p piece) bool { return p.is(before) && !p.is(filler) })
}

// endOnly reports whether a piece says that a pulse was taken at the end, and
// can't say anything else.
func (s *said) endOnly() bool {
	for i := range s.pieces {
		if p := &s.pieces[i]; p.is(end) && !p.is(occasion|filler|maximum|activities) {
			return true
		}
	}
	return false
}

// testTakes reports whether a time in seconds belongs to the test's name.
func (s *said) testTakes(seconds float64) bool {
	for a := class(1); a <= inPlace; a <<= 1 {
		if s.done.activity&a != 0 && s.v.signatures[signature(a, 0, seconds)] != nil {
			return true
		}
	}
	return false
}

// counted sets the unit of beats that were counted over a part of a minute.
func (s *said) counted(h *Heading) {
	for _, u := range s.countedOver() {
		h.Unit, h.UnitGiven = u, true
	}
}

// countedOver returns the units of beats counted over the parts of a minute that
// the header names.
func (s *said) countedOver() (units []scoring.Unit) {
	for _, t := range s.done.seconds {
		if u, ok := map[float64]scoring.Unit{10: scoring.BeatsPer10s, 15: scoring.BeatsPer15s, 30: scoring.BeatsPer30s}[t]; ok {
			units = append(units, u)
		}
	}
	return units
}

// findHints collects the texts that name units: the units themselves, and what is
// in parentheses.
func (s *said) findHints(m roster.Meaning) {
	s.hints = nil
	var run []string
	flush := func() {
		if len(run) > 0 {
			s.hints = append(s.hints, strings.Join(run, " "))
		}
		run = nil
	}
	named := false
	for i := range s.pieces {
		p := &s.pieces[i]
		named = named || p.is(unit) && !p.is(number|filler)
	}
	for i := range s.pieces {
		p := &s.pieces[i]
		isUnit := p.is(unit) && !p.is(number) || isFeet(p.raw) || isStones(p.raw)
		switch {
		case p.raw == "s" && len(run) > 0 && isMinutes(run[len(run)-1]):
			run = append(run, p.raw) // (min:s)
		case isUnit && p.is(filler) && (named || !p.inside && i+1 < len(s.pieces)): // "metres in 12 minutes" names no inches
		case isUnit || p.is(style):
			run = append(run, p.raw)
		default:
			flush()
		}
	}
	flush()
	if s.isPulse(m) {
		return
	}
	var parts []string
	for _, hint := range s.hints {
		if _, ok := cell.UnitOf(hint); !ok {
			parts = append(parts, strings.Fields(hint)...)
		}
	}
	s.hints = append(s.hints, parts...)
}

// allow reports whether each piece may stand beside a meaning.
func (s *said) allow(m roster.Meaning) bool {
	ok := filler | owner | action | style | count | total | person | into | core | which
	amounts := s.done.test != nil || m.Test != nil || s.isPulse(m)
	switch {
	case s.isPulse(m):
		ok |= rest | end | recovery | maximum | before | occasion | attempt | best | activities | ordinal
		if m.Input == scoring.MaxHR {
			ok |= lab
		}
	case m.Role == roster.InputData && m.Input == scoring.Age, m.Role == roster.Birth:
		ok |= occasion | ordinal | activities | numeral | before
	case m.Role == roster.TestDate, m.Role == roster.TestName:
		ok |= activities | testName | attempt | ordinal | occasion
	case m.Role == roster.InputData && m.Input == scoring.SexInput:
		ok |= sexWord | occasion | before
	case isPersonal(m):
		ok |= occasion | before | lab | attempt | ordinal
		if isPressure(m) {
			ok |= rest
		}
	case m.Role == roster.InputData || m.Role == roster.Result || m.Role == roster.LevelPart || m.Role == roster.ShuttlePart:
		ok |= end | maximum | occasion | attempt | best | activities | testName | ordinal
		if m.Test != nil && m.Test.Measured {
			ok |= lab
		}
	case m.Role == roster.ID || m.Role == roster.ListNumber:
		ok |= idWord | occasion
	default:
		ok = ^(other | unknown | number | unit)
	}
	amount := m.Role == roster.InputData || m.Role == roster.Result || m.Role == roster.HeartRate || m.Role == roster.LevelPart || m.Role == roster.ShuttlePart
	if amount {
		ok |= unit
	}
	for i := range s.pieces {
		p := &s.pieces[i]
		switch {
		case p.is(ok) && !p.is(number), amount && p.test != nil && p.test == s.done.test:
		case p.is(unknown) && p.inside: // judged by compose
		case p.class&(number|unit) == number|unit && (amounts || m.Role == roster.Result || m.Input == scoring.ShuttleLaps || m.Role == roster.TestName):
		case p.class == number && s.fitsNumber(m, p):
		case p.is(numeral) && !p.is(number), p.inside && (p.is(sexWord|rest|occasion) || !amount || m.Input == scoring.SexInput):
		default:
			return false
		}
	}
	return true
}

// fitsNumber reports whether a bare number is a year, an attempt or a legend.
func (s *said) fitsNumber(m roster.Meaning, p *piece) bool {
	year := p.value >= 1900 && p.value < 2100 || p.value >= 20 && p.value < 40
	if p.inside && (m.Role != roster.InputData && m.Role != roster.Result || m.Input == scoring.SexInput || m.Input == scoring.Effort || isYesNo(m)) {
		return true
	}
	return year || p.value >= 1 && p.value < 10 && p.value == float64(int(p.value))
}
