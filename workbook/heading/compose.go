package heading

import (
	"slices"
	"strings"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/cell"
	"tenback/workbook/roster"
)

// said are the pieces of a header, and what they have in common.
type said struct {
	v      *vocabulary
	pieces []piece
	done   done
	hints  []string // texts that name units
}

// has reports whether some piece is of a class.
func (s *said) has(c class) bool {
	return slices.ContainsFunc(s.pieces, func(p piece) bool { return p.is(c) })
}

// only reports whether each piece is of one of the classes.
func (s *said) only(c class) bool {
	return !slices.ContainsFunc(s.pieces, func(p piece) bool { return !p.is(c) })
}

// strange reports whether some piece is not understood.
func (s *said) strange(inside bool) bool {
	return slices.ContainsFunc(s.pieces, func(p piece) bool { return p.is(unknown) && p.inside == inside })
}

// compose finds the meaning of the pieces of a header.
func (v *vocabulary) compose(ps []piece) (Heading, bool) {
	s := &said{v: v, pieces: ps, done: v.whatWasDone(ps)}
	if len(ps) == 0 {
		return Heading{}, false
	}
	h, ok := s.special()
	if !ok {
		if s.strange(false) {
			return Heading{}, false
		}
		s.done.find(v)
		if s.done.clash {
			return Heading{}, false
		}
		if h, ok = s.column(); !ok {
			return Heading{}, false
		}
	}
	if s.strange(true) && holdsAmount(h.Meaning) && !s.circumstance(h) {
		return Heading{}, false
	}
	s.order(&h)
	return h, true
}

// circumstance reports whether unknown words in parentheses can't change what a
// column holds: "Body mass kg (in gym kit)".
func (s *said) circumstance(h Heading) bool {
	size := h.Role == roster.InputData && slices.Contains([]scoring.Input{scoring.BodyMass, scoring.Stature, scoring.Waist, scoring.BodyFat}, h.Input)
	return s.has(attempt) || size && (h.UnitGiven || h.Input == scoring.BodyFat) || h.Input == scoring.Effort || isYesNo(h.Meaning)
}

func isYesNo(m roster.Meaning) bool { return m.Input < scoring.InputCount && m.Input.Info().YesNo }

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
		found = slices.DeleteFunc(found, func(m roster.Meaning) bool { return m.Test == nil || !m.Test.Measured })
		for _, r := range fieldtests.Measured.Results {
			found = append(found, roster.Meaning{Role: roster.InputData, Input: r.Input, Test: fieldtests.Measured})
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

// health returns the health question of a header. It goes before everything else:
// "tablets that slow the pulse" asks for no pulse.
func (s *said) health() (scoring.Input, bool) {
	asks := func(in scoring.Input) bool {
		return s.core(func(m roster.Meaning) bool { return m.Role == roster.InputData && m.Input == in })
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
	case asks(scoring.Pregnant):
		return scoring.Pregnant, true
	case asks(scoring.Symptoms):
		return scoring.Symptoms, true
	case asks(scoring.KnownDisease), organs > 1, organs > 0 && s.has(condition):
		return scoring.KnownDisease, true
	}
	return 0, false
}

// mileAlone makes a mile without a number one mile, as in "Fall mile".
func mileAlone(ps []piece) {
	var mile *piece
	for i := range ps {
		p := &ps[i]
		distance := slices.ContainsFunc(p.meanings, func(m roster.Meaning) bool { return m.Input == scoring.Distance })
		switch {
		case p.class&(number|unit) == number|unit && p.amount.Unit.Converts(scoring.Metres), distance:
			return
		case p.is(unit) && !p.inside && p.amount.Unit == scoring.Miles && !strings.HasSuffix(p.raw, "s"):
			mile = p
		}
	}
	if mile != nil {
		mile.class, mile.amount = number|unit, scoring.Q(1, scoring.Miles)
	}
}

// column recognises a column by its cores, the test and the words around them.
func (s *said) column() (Heading, bool) {
	m, found, ok := s.cores()
	if !ok {
		return Heading{}, false
	}
	if !found {
		return s.coreless()
	}
	s.findHints(m)
	if s.isPulse(m) {
		if m, ok = s.pulse(m); !ok {
			return Heading{}, false
		}
	}
	t := s.done.test
	switch {
	case isPersonal(m):
		h := withHints([]roster.Meaning{m}, s.hints)
		if s.isPulse(m) {
			s.counted(&h)
		}
		return h, s.allow(m)
	case m.Role != roster.InputData && m.Role != roster.Result && m.Role != roster.HeartRate && m.Role != roster.LevelPart && m.Role != roster.ShuttlePart:
		return Heading{Meaning: m}, s.allow(m)
	case m.Input == scoring.ShuttleLaps && m.Test == nil && t == nil && len(s.done.metres) == 0:
		m = roster.Meaning{Role: roster.InputData, Input: scoring.ShuttleLaps, Test: MustTest("shuttle-20-m")}
		s.findHints(m)
		h := withHints([]roster.Meaning{m}, s.hints)
		h.Weak = true
		return h, s.allow(m)
	case m.Test == nil && t != nil:
		if m, ok = measured(t, m); !ok {
			return Heading{}, false
		}
	case m.Test == nil && len(s.done.metres) > 0 && (m.Input == scoring.Time || m.Role == roster.Result && m.Input == scoring.InputCount) && s.done.activity&^(run|jog) == 0:
		h := raceOf(s.done.metres[0], s.done.activity != 0)
		if h.Test == nil {
			return h, true
		}
		m = h.Meaning
		return withHints([]roster.Meaning{m}, s.hints), s.allow(m)
	}
	if m.Input == scoring.ShuttleLaps {
		if h, ok := s.laps(m); ok {
			return h, s.allow(m)
		}
	}
	h := withHints([]roster.Meaning{m}, s.hints)
	if s.isPulse(m) {
		s.counted(&h)
		h.activity = s.done.activity
	}
	return h, s.allow(m)
}

// isPersonal reports whether a meaning is an input of the person.
func isPersonal(m roster.Meaning) bool {
	return m.Role == roster.InputData && m.Input < scoring.InputCount && m.Input.Info().Personal
}

// weak are the classes that say little by themselves.
const weak = filler | occasion | unit | idWord | end | count | activities | numeral

// cores folds the meanings of the pieces into one. found is false if there are
// none, ok if they disagree.
func (s *said) cores() (m roster.Meaning, found, ok bool) {
	var strong, mild, named []roster.Meaning
	for i := range s.pieces {
		p := &s.pieces[i]
		if len(p.meanings) == 0 || p.is(sexWord) && (p.inside || s.sexWords() > 1) {
			continue // "boy" is Turkish for stature
		}
		first := p.meanings[0]
		if len(p.meanings) > 1 { // one of them fits the unit
			s.findHints(first)
			first = withHints(p.meanings, s.hints).Meaning
			first.Unit, first.UnitGiven = scoring.NoUnit, false
		}
		switch {
		case first.Test != nil && first.Test.HasResult(first.Input):
			named = append(named, first)
		case first.Role == roster.TestName && p.inside:
		case p.is(weak) && (first.Role != roster.ListNumber || p.is(count)) || first.Role == roster.TestName || first.Role == roster.Result && first.Input == scoring.InputCount:
			mild = append(mild, first)
		default:
			strong = append(strong, first)
		}
	}
	for _, n := range named {
		if s.done.test == nil && (n.Test != Race || len(s.done.metres) == 0) {
			s.done.test = n.Test
		}
	}
	use := strong
	if len(use) == 0 {
		use = mild
		if s.done.test != nil || s.has(person) || s.has(activities) {
			use = slices.DeleteFunc(slices.Clone(use), func(m roster.Meaning) bool { return m.Role == roster.TestName && !s.has(which) })
		}
	} else if slices.ContainsFunc(use, func(m roster.Meaning) bool { return m.Role == roster.Birth }) {
		use = slices.DeleteFunc(slices.Clone(use), func(m roster.Meaning) bool { return m.Role == roster.Group || m.Role == roster.TestDate })
	}
	if len(use) == 0 {
		for _, n := range named {
			if n.Test == s.done.test && (n.Test != Race || len(s.done.metres) == 0) {
				return n, true, true
			}
		}
		return m, false, true
	}
	if s.shuttleInLevel() {
		return roster.Meaning{Role: roster.InputData, Input: scoring.ShuttleInLevel, Test: MustTest("shuttle-20-m")}, true, true
	}
	m = use[0]
	for _, other := range use[1:] {
		if m, ok = s.fold(m, other); !ok {
			return m, true, false
		}
	}
	if m.Role == roster.ListNumber && s.has(idWord|person) && len(use) == 1 {
		m.Role = roster.ID
	}
	return m, true, true
}

// sexWords returns the number of words for people of one sex.
func (s *said) sexWords() (n int) {
	for i := range s.pieces {
		if s.pieces[i].is(sexWord) {
			n++
		}
	}
	return n
}

// namesSexes reports whether a header is of words for the sexes; one letter alone
// may be a unit.
func (s *said) namesSexes() bool {
	return s.sexWords() > 1 || s.sexWords() == 1 && slices.ContainsFunc(s.pieces, func(p piece) bool { return p.is(sexWord) && len(p.raw) > 2 })
}

// coreless recognises a header without a core: a test, a person, an attempt.
func (s *said) coreless() (Heading, bool) {
	const around = filler | owner | action | occasion | number | ordinal | attempt | best | style | numeral | which | count | total | into
	t := s.done.test
	switch {
	case t == nil && s.has(person) && s.has(idWord) && s.only(person|idWord|filler|owner|numeral) && !s.only(person|filler|owner|numeral):
		return Heading{Meaning: roster.Meaning{Role: roster.ID}}, true
	case t == nil && s.has(person) && s.only(person|filler|owner|idWord|style):
		return Heading{Meaning: roster.Meaning{Role: roster.Name}}, true
	case t == nil && s.namesSexes() && s.only(sexWord|number|filler|style) && len(s.done.metres) == 0:
		return Heading{Meaning: roster.Meaning{Role: roster.InputData, Input: scoring.SexInput}}, true
	case t == nil && s.has(which) && s.has(activities) && s.only(around|activities):
		return Heading{Meaning: roster.Meaning{Role: roster.TestName}}, true
	case t != nil && len(t.Results) > 0:
		m := roster.Meaning{Role: roster.InputData, Input: t.Results[0].Input, Test: t}
		s.findHints(m)
		h := withHints([]roster.Meaning{m}, s.hints)
		if h.Meaning.Input == scoring.RecoveryHR || h.Meaning.Input == scoring.ExerciseHR {
			if slices.ContainsFunc(s.done.metres, func(m float64) bool { return m >= 1 }) {
				return Heading{}, false // such as 5 km on a bike
			}
			s.counted(&h)
		}
		return h, s.allow(m)
	case len(s.done.metres) > 0 && (s.done.isRun() || s.done.activity == 0):
		if s.done.activity == 0 && s.has(end|before|rest|recovery|maximum) && !s.only(around|unit|end) {
			return Heading{}, false
		}
		h := raceOf(s.done.metres[0], s.done.activity != 0)
		if h.Test == nil {
			return h, true
		}
		m := h.Meaning
		s.findHints(m)
		return withHints([]roster.Meaning{m}, s.hints), s.allow(m)
	case s.only(unit | style | filler):
		return s.unitsAlone()
	case t == nil && s.has(attempt|best|action|run|walk|count) && s.only(around|run|walk|jog|end|unit):
		m := roster.Meaning{Role: roster.Result, Input: scoring.InputCount}
		s.findHints(m)
		return withHints([]roster.Meaning{m}, s.hints), true
	case t == nil && s.has(occasion) && s.only(occasion|filler|number|ordinal) && !s.only(filler):
		return Heading{Meaning: roster.Meaning{Role: roster.Result, Input: scoring.InputCount}, Weak: true}, true
	}
	return Heading{}, false
}

// unitsAlone recognises Min and Sec, and a time as mm:ss.
func (s *said) unitsAlone() (Heading, bool) {
	m := roster.Meaning{Role: roster.Result, Input: scoring.Time}
	s.findHints(m)
	if h := withHints([]roster.Meaning{m}, s.hints); h.Style == cell.Dotted {
		return h, true
	}
	if len(s.pieces) == 1 && s.pieces[0].amount.Unit == scoring.Kilograms && !s.pieces[0].inside {
		return withHints([]roster.Meaning{{Role: roster.InputData, Input: scoring.BodyMass}}, s.hints), true
	}
	if len(s.pieces) == 1 && s.pieces[0].amount.Unit.Converts(scoring.Metres) {
		return withHints([]roster.Meaning{{Role: roster.Result, Input: scoring.Distance}}, s.hints), true
	}
	if len(s.pieces) == 1 {
		if m, ok := unitAlone(s.pieces[0].raw); ok {
			return Heading{Meaning: m}, true
		}
	}
	return Heading{}, false
}

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

// order sets the attempt and the occasion of a header.
func (s *said) order(h *Heading) {
	var term []string
	for i := range s.pieces {
		p := &s.pieces[i]
		switch {
		case p.class == number && p.value >= 1900 && p.value < 2100:
			term = append(term, p.raw)
		case (p.class == number || p.is(ordinal)) && p.value >= 1 && p.value < 10 && p.value == float64(int(p.value)) && !p.inside:
			h.Attempt = int(p.value)
		case p.is(best) && !p.is(filler):
			h.Best = true
		case p.is(occasion) && !p.is(filler|core|owner|unit|end|rest):
			term = append(term, p.raw)
		}
	}
	h.Term = strings.Join(term, " ")
	h.Morning = isResting(h.Meaning) && (h.Attempt > 0 || h.Term != "")
}
