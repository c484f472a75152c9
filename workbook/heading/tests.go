package heading

import (
	"fmt"
	"math"
	"slices"

	"tenback/scoring"
	"tenback/scoring/fieldtests"
	"tenback/workbook/roster"
)

// signature identifies a test by what was done, over what length and for how
// long: "walk|2000|0". Declared names of tests are read into signatures, so a
// header in other words or another language finds the same test.
func signature(done class, metres, seconds float64) string {
	if done&(step|shuttle) == 0 && metres > 2390 && metres < 2420 {
		metres = 2400 // 1.5 miles
	}
	switch {
	case done == step && metres > 0:
		seconds = 0
		for _, bench := range []float64{.20, .30, .41} {
			if math.Abs(metres-bench) < .006 {
				metres = bench
			}
		}
	case done == shuttle:
		if metres == 20 {
			metres = 0
		}
		if seconds == 60 {
			seconds = 0
		}
	}
	return fmt.Sprintf("%d|%.2f|%.0f", done, metres, seconds)
}

// done is what some pieces of a header say of a test.
type done struct {
	activity class
	metres   []float64
	seconds  []float64
	test     *scoring.Test
	clash    bool // several tests
}

// isRun reports whether what was done is a run, over any distance.
func (d *done) isRun() bool { return d.activity&^(run|jog) == 0 && d.activity&run != 0 }

// whatWasDone collects what pieces say of a test.
func (v *vocabulary) whatWasDone(ps []piece) (d done) {
	mileAlone(ps)
	within := false // the test is named in parentheses
	any := ^class(0)
	all := class(0)
	for i := range ps {
		p := &ps[i]
		switch {
		case p.class&(number|unit) == number|unit:
			q := p.amount
			switch {
			case q.Unit.Converts(scoring.Metres):
				d.metres = append(d.metres, q.In(scoring.Metres))
			case q.Unit.Converts(scoring.Seconds):
				d.seconds = append(d.seconds, q.In(scoring.Seconds))
			}
		case p.metres > 0:
			d.metres, all, any = append(d.metres, p.metres), all|run, any&run
		}
		t := p.test
		if len(p.meanings) > 0 && p.meanings[0].Test != nil && p.meanings[0].Test != Race {
			t = p.meanings[0].Test
		}
		if t != nil && (!p.inside || d.test == nil) && !(t.Measured && p.is(lab) && len(p.meanings) == 0) {
			d.clash = d.clash || d.test != nil && d.test != t && !within
			d.test, within = t, p.inside
			all |= v.activity[t]
			if p.class&activities == 0 && v.activity[t] != 0 {
				any &= v.activity[t]
			}
		}
		if a := p.class & activities; a != 0 {
			all |= a
			if p.class&filler == 0 {
				any &= a
			}
		}
	}
	d.activity = all & any
	if d.activity&(run|walk|jog) != 0 || all == 0 {
		for i, m := range d.metres {
			if m > 1 && m < 10 && all != 0 {
				d.metres[i] = m * 1609.344 // "1.5m run" is no run of a metre and a half
			}
		}
	}
	for _, stronger := range []class{inPlace, shuttle, step, cycle, treadmill} {
		if d.activity == 0 && all&stronger != 0 {
			d.activity = stronger
		}
	}
	return d
}

// find sets the test by its signature. Two tests, or a form of one that is not
// known, are a clash.
func (d *done) find(v *vocabulary) {
	done := d.activity
	long := slices.DeleteFunc(slices.Clone(d.seconds), func(s float64) bool { return s < 120 })
	if done == 0 && len(long) > 0 {
		done = activities
	}
	var found *scoring.Test
	for a := class(1); a <= inPlace; a <<= 1 {
		if done&a == 0 {
			continue
		}
		t := d.exact(v, a, long)
		if t != nil && d.activity == 0 && !t.HasResult(scoring.Distance) {
			t = nil // minutes alone name no test by pulse
		}
		if t != nil && found != nil && t != found {
			d.clash = true
			return
		}
		if t != nil {
			found = t
		}
	}
	switch {
	case found == nil:
		unknownForm := d.activity != 0 && d.activity&^(run|walk|jog) == 0 && len(long) > 0 || d.activity == shuttle && slices.ContainsFunc(d.metres, func(m float64) bool { return m != 20 && m < 100 })
		d.clash = d.clash || unknownForm
	case found.ID == "step-stage" && d.test != nil && d.test != found && len(d.metres) == 0:
	case d.test == nil || d.generic() || d.test != found && d.sameActivity(v, found):
		d.test, d.clash = found, false
	case d.test != found:
		d.clash = true
	}
}

// exact returns the test of an activity with one of the lengths and times.
func (d *done) exact(v *vocabulary, a class, seconds []float64) *scoring.Test {
	if a == step && len(d.metres) > 0 {
		if t := v.signatures[signature(a, d.metres[0], 0)]; t != nil {
			return t
		}
		return MustTest("step-stage") // a bench of another height
	}
	for _, m := range append(slices.Clone(d.metres), 0) {
		for _, s := range append(slices.Clone(seconds), 0) {
			if m == 0 && s == 0 && (d.test != nil || len(d.metres) > 0 && a&(run|jog|walk|shuttle) != 0 || d.activity == 0) {
				continue
			}
			if t := v.signatures[signature(a, m, s)]; t != nil {
				return t
			}
		}
	}
	return nil
}

// generic reports whether the named test is only the usual one of an activity.
func (d *done) generic() bool { return d.test.ID == "step-stage" || d.test.ID == "walk-1-mile" }

func (d *done) sameActivity(v *vocabulary, t *scoring.Test) bool {
	return v.activity[d.test]&v.activity[t] != 0
}

// fillSignatures reads the declared names of tests.
func (v *vocabulary) fillSignatures() {
	v.signatures, v.activity = map[string]*scoring.Test{}, map[*scoring.Test]class{}
	for _, t := range fieldtests.All() {
		if t == Race || t.Measured {
			continue // any distance, or by the word laboratory
		}
		for _, name := range append([]string{t.Name}, t.Names...) {
			ps := v.lexicon.parse(name)
			plain := true
			for i := range ps {
				ps[i].test = nil
				plain = plain && !ps[i].is(unknown)
			}
			d := v.whatWasDone(ps)
			if !plain || d.activity == 0 || d.activity&(d.activity-1) != 0 || len(d.metres) > 1 || len(d.seconds) > 1 {
				continue
			}
			sum := func(all []float64) (x float64) {
				for _, a := range all {
					x += a
				}
				return x
			}
			key := signature(d.activity, sum(d.metres), sum(d.seconds))
			if v.signatures[key] == nil {
				v.signatures[key] = t
			}
			v.activity[t] |= d.activity
		}
	}
}

// raceOf returns the meaning of a run over a distance: another declared test, a
// race, or a run that is not scored.
func raceOf(metres float64, said bool) Heading {
	least, most := RaceLimit("d")
	m := roster.Meaning{Role: roster.InputData, Input: scoring.Time, Test: Race, Distance: metres}
	switch {
	case metres > 2390 && metres < 2420:
		m.Test, m.Distance = MustTest("run-1.5-mile"), 0
	case !said && metres == 2000:
		return Heading{Meaning: roster.Meaning{Role: roster.Unscored, Distance: metres}, Unclear: walkOrRun, Choices: []string{"2 km walk", "2 km run"}}
	case !said && metres > 1605 && metres < 1620:
		return Heading{Meaning: roster.Meaning{Role: roster.Unscored, Distance: metres}, Unclear: walkOrRun, Choices: []string{"1 mile run", "1 mile walk"}}
	case metres > 1605 && metres < 1620:
		m.Test, m.Distance = MustTest("run-1-mile"), 0
	case metres < least || metres > most:
		return Heading{Meaning: roster.Meaning{Role: roster.Unscored}}
	}
	return Heading{Meaning: m}
}
