package heading

import (
	"slices"

	"tenback/scoring"
	"tenback/workbook/roster"
)

// measured returns what a core means in a test.
func measured(t *scoring.Test, m roster.Meaning) (roster.Meaning, bool) {
	in := m.Input
	switch {
	case m.Role == roster.HeartRate && t.Takes(scoring.ExerciseHR):
		in = scoring.ExerciseHR
	case m.Role == roster.HeartRate && t.Takes(scoring.RecoveryHR):
		in = scoring.RecoveryHR
	case in == scoring.ExerciseHR && !t.Takes(in) && t.Takes(scoring.RecoveryHR):
		in = scoring.RecoveryHR // a pulse right after stepping is the first of recovery
	case in == scoring.RecoveryHR && !t.Takes(in):
		return roster.Meaning{Role: roster.InputData, Input: in}, true
	case m.Role == roster.LevelPart && t.Takes(scoring.ShuttleLevel):
		in = scoring.ShuttleLevel
	case m.Role == roster.ShuttlePart && t.Takes(scoring.ShuttleInLevel):
		in = scoring.ShuttleInLevel
	case m.Role == roster.Result && in == scoring.InputCount && len(t.Results) > 0:
		in = t.Results[0].Input
	case in == scoring.ShuttleLaps && t.HasResult(scoring.Distance):
		return roster.Meaning{Role: roster.InputData, Input: in, Test: t}, true // see laps
	}
	if in >= scoring.InputCount || in.Info().Personal || !t.Takes(in) {
		return m, false
	}
	return roster.Meaning{Role: roster.InputData, Input: in, Test: t}, true
}

// fold merges two meanings of one header, such as Surname and First name.
func (s *said) fold(a, b roster.Meaning) (roster.Meaning, bool) {
	if a.Role > b.Role {
		a, b = b, a
	}
	name := func(r roster.Role) bool { return r == roster.Name || r == roster.GivenName || r == roster.FamilyName }
	isTime := func(m roster.Meaning) bool { return m.Role == roster.Result && m.Input == scoring.Time }
	switch {
	case a.Role == b.Role && a.Input == b.Input && (a.Test == nil || b.Test == nil || a.Test == b.Test):
		if a.Test == nil {
			return b, true
		}
		return a, true
	case isResting(a) && isPressure(b):
		return b, true // "Resting BP"
	case isPressure(a) && isResting(b):
		return a, true
	case name(a.Role) && name(b.Role):
		return roster.Meaning{Role: roster.Name}, true
	case a.Role == roster.Name && b.Role == roster.Group, a.Role == roster.ID && b.Role == roster.ListNumber, a.Role == roster.Birth && b.Role == roster.TestDate:
		if a.Role == roster.Birth {
			return a, true
		}
		return b, true
	case a.Role == roster.TestDate && b.Role == roster.InputData && b.Input == scoring.Age:
		return b, true
	case a.Role == roster.InputData && b.Role == roster.InputData && a.Input+b.Input == scoring.Age+scoring.SexInput && a.Input != b.Input:
		return roster.Meaning{Role: roster.AgeSex}, true
	case a.Role == roster.TestDate && b.Role == roster.TestName:
		return a, true
	case a.Role == roster.InputData && b.Role == roster.HeartRate && s.isPulse(a):
		return a, true
	case a.Role == roster.LevelPart && b.Role == roster.ShuttlePart:
		return roster.Meaning{Role: roster.InputData, Input: scoring.ShuttleLevel, Test: MustTest("shuttle-20-m")}, true
	case a.Role == roster.Result && b.Role == roster.Result, isTime(a) && b.Role == roster.LevelPart, a.Role == roster.Result && b.Role == roster.LevelPart:
		return roster.Meaning{Role: roster.Result, Input: scoring.InputCount}, true
	}
	return a, false
}

// isPressure reports whether a meaning is a blood pressure.
func isPressure(m roster.Meaning) bool {
	return m.Role == roster.InputData && (m.Input == scoring.SystolicBP || m.Input == scoring.DiastolicBP)
}

// shuttleInLevel reports whether the pieces say shuttle, then in, then level.
func (s *said) shuttleInLevel() bool {
	next := []class{shuttle, into}
	for i := range s.pieces {
		p := &s.pieces[i]
		laps := slices.ContainsFunc(p.meanings, func(m roster.Meaning) bool { return m.Input == scoring.ShuttleLaps && m.Test == nil })
		if len(next) > 0 && (p.is(next[0]) || len(next) == 2 && laps) {
			next = next[1:]
		} else if len(next) == 0 && slices.ContainsFunc(p.meanings, func(m roster.Meaning) bool { return m.Role == roster.LevelPart }) {
			return true
		}
	}
	return false
}

// laps reads laps of a track in a test over a distance. Laps of the shuttle run
// need no length.
func (s *said) laps(m roster.Meaning) (Heading, bool) {
	if m.Test != nil && m.Test.Takes(scoring.ShuttleLaps) {
		return Heading{}, false
	}
	track := 0.0
	for _, metres := range s.done.metres {
		if metres >= 50 && metres <= 1000 {
			track = metres
		}
	}
	h := Heading{Meaning: roster.Meaning{Role: roster.InputData, Input: scoring.Distance, Test: m.Test, Unit: scoring.Metres, LapMetres: track}}
	switch {
	case m.Test == nil && track == 0:
		m.Role, m.Test = roster.InputData, MustTest("shuttle-20-m") // laps of 20 m
		return Heading{Meaning: m, Weak: true}, true
	case m.Test == nil:
		h.Role = roster.Result
	case track == 0:
		return LapsUnclear(), true
	}
	return h, true
}

// LapsUnclear returns the heading of laps of a track whose length is not known.
func LapsUnclear() Heading {
	return Heading{Meaning: roster.Meaning{Role: roster.Unscored}, Unclear: lapLength,
		Choices: []string{"12 minute run (laps of 400 m)", "12 minute run (laps of 300 m)", "12 minute run (laps of 250 m)", "12 minute run (laps of 200 m)"}}
}
