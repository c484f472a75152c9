package scoring_test

import (
	"math"
	"math/rand/v2"
	"testing"

	. "tenback/scoring"
	"tenback/scoring/fieldtests"
)

// simulated is how often what is stated of people comes true, in hundredths.
type simulated struct{ people, likely, nine, band, bandSaid float64 }

// simulate draws people for an equation. Their true uptake is what the equation would
// give with their true maximum heart rate, which lies around the predicted one, and off
// by its error.
func simulate(random *rand.Rand, test *Test, eq *Equation, n int) (s simulated) {
	for tries := 0; tries < 200*n && s.people < float64(n); tries++ {
		e := drawPerson(random, test, eq, test.Results[0])
		est, refusal := e.EstimateBy(eq)
		age, ok := e.Get(Age)
		if refusal != nil || !ok {
			continue
		}
		truth := float64(est.VO2)
		if est.FromOwn > 0 {
			top, off := PredictedMaxHR(age.Amount)
			with := func(z float64) (VO2, bool) {
				e.Clip()
				known := *e
				known.Set(MaxHR, Q(top+off*z, BeatsPerMinute), "")
				est, refusal := known.EstimateBy(eq)
				return est.VO2, refusal == nil
			}
			z := max(-3, min(3, random.NormFloat64()))
			v, ok := with(z)
			_, inside := with(3) // else a limit would leave out one side of the truth
			_, both := with(-3)
			if !ok || !inside || !both {
				continue
			}
			truth = float64(v)
		}
		rest := float64(est.SD*est.SD - est.FromOwn*est.FromOwn)
		truth += math.Sqrt(rest) * random.NormFloat64()
		s.people++
		if low, high := est.Likely(); truth >= float64(low) && truth <= float64(high) {
			s.likely++
		}
		if low, high := est.Range90(); truth >= float64(low) && truth <= float64(high) {
			s.nine++
		}
		line := est.VO2 + est.SD*VO2(random.Float64()-0.5) // of a band
		s.bandSaid += est.ChanceAbove(line)
		if truth >= float64(line) {
			s.band++
		}
	}
	for _, x := range []*float64{&s.likely, &s.nine, &s.band, &s.bandSaid} {
		*x *= 100 / s.people
	}
	return s
}

// TestSimulatedPeople sends people through every test: the likely range, nine chances in
// ten and the chance of a band come true within 2 in a hundred.
func TestSimulatedPeople(t *testing.T) {
	const n, most = 4000, 2.0
	for _, test := range fieldtests.All() {
		if test.Norm != nil || test.Fallback {
			continue
		}
		for _, eq := range test.Equations {
			if eq.Choice {
				continue
			}
			s := simulate(randomOf(eq.ID), test, eq, n)
			if s.people < 1000 {
				t.Errorf("%s: only %.0f people", eq.ID, s.people)
			}
			t.Logf("%-26s likely %.1f of 68.3, nine in ten %.1f, band %.1f of %.1f", eq.ID, s.likely, s.nine, s.band, s.bandSaid)
			if math.Abs(s.likely-68.3) > most || math.Abs(s.nine-90) > most || math.Abs(s.band-s.bandSaid) > most {
				t.Errorf("%s: %.0f people, likely %.1f, nine in ten %.1f, band %.1f of %.1f", eq.ID, s.people, s.likely, s.nine, s.band, s.bandSaid)
			}
		}
	}
}
