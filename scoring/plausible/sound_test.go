package plausible_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// TestSoundPeopleAreRarelyDoubted draws people whose values belong together, a third of
// them very fit, very unfit, very large or very small, and lets them do several tests.
// Their medians and spreads are rough, from memory; no value is a slip.
func TestSoundPeopleAreRarelyDoubted(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	around := func(mean, sd float64) float64 { return mean + sd*max(-3, min(3, rng.NormFloat64())) }
	clock := func(seconds float64) string { return fmt.Sprintf("%d:%02d", int(seconds)/60, int(seconds)%60) }
	doubted, tests, shown := 0, 0, 0
	const people = 4000
	for n := range people {
		age := []float64{around(12, 2.8), 18 + 12*rng.Float64(), 18 + 50*rng.Float64(), 60 + 30*rng.Float64()}[n%4]
		age = max(6, age)
		male := float64(n / 4 % 2)
		grown := min(1, (age-2)/16)
		stature := (86+78*math.Pow(grown, 0.85)+13*male*max(0, min(1, (age-12)/5)))*1.0 + around(0, 6.5)
		index := 15 + 7.5*grown + math.Abs(around(0, 3.5)) - 1.5
		fitness := around(0, 1)
		switch n % 9 {
		case 0: // fit
			fitness = around(2.2, 0.6)
			index = min(index, 15.5+6*grown)
		case 1: // unfit and heavy
			fitness, index = around(-1.6, 0.5), index+around(12, 4)*grown
		case 2: // very large or very small
			stature += []float64{-14, 18}[n/9%2] * grown
		}
		mass := index * stature * stature / 10000
		mean := 46 - 0.3*max(0, age-20) - 9*(1-male)*grown
		vo2 := max(12+0.1*max(0, 70-age), mean+7.5*fitness*(0.6+0.4*mean/46))
		vo2 *= min(1, 1.25-index/90)
		top := around(208-0.7*age, 9)
		rest := max(36, around(88-1.3*min(age, 14)-5.5*fitness, 8))
		text := fmt.Sprintf("sex=%s age=%.1f body-mass=%.1f stature=%.0f resting-hr=%.0f", []string{"F", "M"}[int(male)], age, mass, stature, rest)
		pulse := func(cost float64) float64 {
			return math.Round(rest + (top-rest)*min(0.97, max(0.15, around(cost/vo2, 0.05))))
		}
		effort := 1 - 0.25*rng.Float64()*rng.Float64() // few run as fast as they could
		speed := max(1.25, (vo2*effort*0.93-3.5)/0.2/60) * (0.72 + 0.28*grown)
		switch n % 5 {
		case 0:
			text += " run-1.5-mile time=" + clock(2414/speed)
		case 1:
			text += fmt.Sprintf(" run-12-minute distance=%.0f", 720*speed)
		case 2:
			walk := min(around(1.75, 0.2), max(0.8, (vo2*0.9-3.5)/6), 2.3)
			text += fmt.Sprintf(" walk-1-mile time=%s exercise-hr=%.0f", clock(1609/walk), pulse(3.5+6*walk+max(0, walk-1.6)*8))
		case 3:
			text += fmt.Sprintf(" shuttle-20-m shuttle-level=%.0f", max(1, min(19, math.Floor((speed*3.6*0.97-8)/0.5))))
		case 4:
			watts := math.Round(0.55*(vo2-7)*mass/10.8/5) * 5
			text += fmt.Sprintf(" cycle-stage power=%.0f exercise-hr=%.0f", max(20, watts), pulse(7+10.8*max(20, watts)/mass))
		}
		if n%3 == 0 { // a second test
			text += fmt.Sprintf(" walk-6-minute distance=%.0f", 360*around(min(2, 0.95+0.022*vo2), 0.12))
			tests++
		}
		tests++
		if e := judged(t, text); len(e.Doubts) > 0 {
			if doubted++; shown < 40 {
				shown++
				t.Logf("%s\n   vo2 %.0f: %s: %s", text, vo2, told(e), e.Doubts[0].What)
			}
		}
	}
	if share := float64(doubted) / people; share > 0.01 {
		t.Errorf("%d of %d people in %d tests are doubted", doubted, people, tests)
	}
}
