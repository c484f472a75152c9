package heading

import (
	"slices"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// healthQuestions are the health questions besides medicines and clearance; a header
// may name what several ask, and means the first.
var healthQuestions = []scoring.Input{scoring.Pregnant, scoring.Symptoms, scoring.FamilySuddenDeath, scoring.SickleCellTrait, scoring.RecentIllness, scoring.RecentOperation,
	scoring.Insulin, scoring.Asthma, scoring.Inactive, scoring.KnownDisease, scoring.Consent}

// health returns the health question of a header. It goes before everything else:
// "tablets that slow the pulse" asks for no pulse.
func (s *said) health() (scoring.Input, bool) {
	notes := slices.ContainsFunc(s.pieces, func(p piece) bool { return !p.inside && p.holds(roster.Meaning{Role: roster.Other}) })
	asks := func(in scoring.Input) bool {
		return slices.ContainsFunc(s.pieces, func(p piece) bool {
			return p.holds(roster.Meaning{Role: roster.InputData, Input: in}) && !(notes && p.inside) // Notes (inhaler etc.)
		})
	}
	organs := 0
	for i := range s.pieces {
		if s.pieces[i].is(organ) {
			organs++
		}
	}
	switch {
	case asks(scoring.HeartRateDrug):
		return scoring.HeartRateDrug, true
	case asks(scoring.Cleared), s.has(doctor) && s.has(allowed):
		return scoring.Cleared, true
	}
	for _, in := range healthQuestions {
		if asks(in) {
			return in, in != scoring.Consent || !s.about(other)
		}
	}
	return scoring.KnownDisease, organs > 1 || organs > 0 && s.has(condition)
}

// about reports whether some piece is of a class and says nothing else: a consent to
// photos is not one to the test.
func (s *said) about(c class) bool {
	return slices.ContainsFunc(s.pieces, func(p piece) bool { return p.is(c) && !p.is(core|allowed|filler) })
}

// AsksHealth reports whether a header that is not recognised seems to ask about
// health: it has a word of organs, diseases, medicines or forms about them, or what a
// doctor thinks, and does not name a place, a person or a job.
func AsksHealth(header string) bool {
	s := &said{pieces: known().lexicon.parse(header)}
	asks := s.core(func(m roster.Meaning) bool {
		return isYesNo(m) && m.Role == roster.InputData && m.Input != scoring.Consent
	})
	return (asks || s.has(healthWord|organ) || s.has(doctor) && s.has(allowed|unknown|condition)) && !s.has(aside)
}

// HealthQuestions returns what a header may ask, the likeliest first.
func HealthQuestions(header string) []scoring.Input {
	all := []scoring.Input{scoring.HeartRateDrug, scoring.KnownDisease, scoring.Cleared}
	s := &said{pieces: known().lexicon.parse(header)}
	likely := scoring.KnownDisease
	if in, ok := s.health(); ok {
		likely = in
	} else if s.has(doctor | allowed) {
		likely = scoring.Cleared
	}
	all = slices.DeleteFunc(all, func(in scoring.Input) bool { return in == likely })
	return append([]scoring.Input{likely}, all...)
}

// IsRemark reports whether a header names remarks.
func IsRemark(header string) bool {
	s := &said{pieces: known().lexicon.parse(header)}
	return s.core(func(m roster.Meaning) bool { return m.Role == roster.Other })
}

// IsAside reports whether a header names a place, a person or a job.
func IsAside(header string) bool {
	s := &said{pieces: known().lexicon.parse(header)}
	return s.has(aside)
}
