package heading

import (
	"slices"
	"strings"

	"tenback/scoring"
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
	if m.Role == roster.ShuttlePart && s.has(total) {
		m = roster.Meaning{Role: roster.InputData, Input: scoring.ShuttleLaps, Test: MustTest("shuttle-20-m")}
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
	if m.Role == roster.Result && m.Input == scoring.InputCount && s.done.activity == 0 && s.has(count) && len(s.countedOver()) > 0 {
		m.Role = roster.HeartRate // "15 s count"
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
