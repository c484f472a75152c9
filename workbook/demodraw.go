package workbook

import (
	"math"
	"math/rand/v2"
	"time"

	"tenback/scoring"
)

// demoRow is a demonstration person with all that stands in the row.
type demoRow struct {
	demoPerson
	number int
	entry  scoring.Entry // what scores; the mess comes on top
}

// demoDraw invents what the people were not given. It is seeded, so that the
// roster is the same each time, and keeps count of the tests, so that all are
// shown.
type demoDraw struct {
	random *rand.Rand
	used   map[*scoring.Test]int
}

func newDemoDraw() *demoDraw {
	return &demoDraw{rand.New(rand.NewPCG(8, 1609)), map[*scoring.Test]int{}}
}

// newSeasonsDraw is for the earlier seasons, apart from the people of the present
// one.
func newSeasonsDraw() *demoDraw {
	return &demoDraw{rand.New(rand.NewPCG(25, 1109)), map[*scoring.Test]int{}}
}

// around draws from a bell curve, within two standard deviations.
func (d *demoDraw) around(mean, sd float64) float64 {
	return mean + sd*min(2, max(-2, d.random.NormFloat64()))
}

// row invents a person's row for the given test day.
func (d *demoDraw) row(p demoPerson, day time.Time, suited []*scoring.Test) (demoRow, bool) {
	r := demoRow{demoPerson: p}
	e := &r.entry
	e.Tested = day
	e.Born = day.AddDate(-p.age, 0, -10-d.random.IntN(340))
	years, err := scoring.AgeOn(e.Born, day)
	if err != nil {
		return r, false
	}
	e.Set(scoring.Age, scoring.Q(years, scoring.Years), "")
	e.SetSex(p.sex, "")
	stature := d.stature(p.sex, years)
	e.Set(scoring.Stature, scoring.Q(math.Round(stature), scoring.Centimetres), "")
	index := min(d.around(24, 2.5), 24.5+0.1*years) // kg/m²
	if years < 18 {
		index = d.around(13+0.45*years, 1.2)
	}
	e.Set(scoring.BodyMass, scoring.Q(math.Round(index*stature*stature/10_000*2)/2, scoring.Kilograms), "")
	if p.resting == 0 {
		p.resting = max(44, math.Round(d.around(98-0.75*float64(p.uptake), 4)))
	}
	e.Set(scoring.RestingHR, scoring.Q(p.resting, scoring.BeatsPerMinute), "")
	if len(p.tests) == 0 {
		return r, d.choose(&r, suited)
	}
	for _, id := range p.tests {
		test, ok := scoring.TestByID(id)
		if !ok || !d.add(&r, test, false) {
			return r, false
		}
	}
	return r, true
}

func (d *demoDraw) stature(sex scoring.Sex, years float64) float64 {
	grown := map[scoring.Sex]float64{scoring.Female: 166, scoring.Male: 179, scoring.SexUnspecified: 172}[sex]
	if years < 18 { // about 6 cm a year up to 16
		grown -= 6 * max(0, 16-years)
	}
	return d.around(grown, 5)
}

// choose gives the person the least shown of the suited tests that fits.
func (d *demoDraw) choose(r *demoRow, suited []*scoring.Test) bool {
	tried := map[*scoring.Test]bool{}
	for range suited {
		var next *scoring.Test
		for _, t := range suited {
			if !tried[t] && (next == nil || d.used[t] < d.used[next]) {
				next = t
			}
		}
		tried[next] = true
		if d.add(r, next, true) {
			return true
		}
	}
	return false
}

// demoMiss is how far (mL/kg/min) a test's result may miss the uptake meant:
// some tests have coarse steps.
const demoMiss = 2.5

// add does a test: it finds the result that gives the person's uptake. With
// suits it must be one that the test was made for such people to reach.
func (d *demoDraw) add(r *demoRow, test *scoring.Test, suits bool) bool {
	trial := scoring.Trial{Test: test}
	result := test.Results[0]
	for _, in := range test.Needs() {
		if x, ok := d.typical(r, test, in); ok && !in.Info().Personal && in != result.Input {
			trial.Set(in, scoring.Q(x, in.Info().Unit), "")
		}
	}
	for _, also := range test.Also {
		if x, ok := d.typical(r, test, also.Input); ok {
			trial.Set(also.Input, scoring.Q(x, also.Input.Info().Unit), "")
		}
	}
	amount, ok := resultFor(&r.entry, trial, result, r.uptake, suits)
	if !ok {
		return false
	}
	trial.Set(result.Input, scoring.Q(amount, result.Input.Info().Unit), "")
	r.entry.Trials = append(r.entry.Trials, trial)
	d.used[test]++
	return true
}

// usualResults bounds the results, in the unit of the test's input, where the
// equation alone would ask for odd ones. Common practice, no source.
var usualResults = map[string][2]float64{"walk-6-minute": {420, 720}}

// resultFor finds the result in whole steps of the test that comes nearest to
// an uptake. Of a test with norms in place of an uptake it takes the mean.
func resultFor(e *scoring.Entry, trial scoring.Trial, result scoring.Result, uptake scoring.VO2, suits bool) (amount float64, ok bool) {
	info := result.Input.Info()
	step := 1.0
	if result.Step.Amount > 0 {
		step = result.Step.In(info.Unit)
	}
	if trial.Test == scoring.Measured {
		step = 0.1
	}
	miss := func(amount float64) float64 {
		one := *e
		t := trial
		t.Set(result.Input, scoring.Q(amount, info.Unit), "")
		one.Trials = []scoring.Trial{t}
		score := scoring.Assess(&one)
		if len(score.Norms) > 0 {
			return math.Abs(amount-score.Norms[0].Mean) / score.Norms[0].SD
		}
		if best := score.Best(); best != nil && (best.Valid() || !suits) {
			return math.Abs(float64(best.VO2 - uptake))
		}
		return math.Inf(1)
	}
	if usual, ok := usualResults[trial.Test.ID]; ok && suits {
		info.Min, info.Max = usual[0], usual[1]
	}
	// First at wide intervals, then at every step around the best.
	const coarse = 400
	wide := max(step, math.Round((info.Max-info.Min)/coarse/step)*step)
	best, least := 0.0, math.Inf(1)
	look := func(from, to, by float64) {
		for x := max(info.Min, from); x <= min(info.Max, to); x += by {
			if m := miss(math.Round(x/step) * step); m < least {
				best, least = math.Round(x/step)*step, m
			}
		}
	}
	look(info.Min, info.Max, wide)
	look(best-wide, best+wide, step)
	return best, least <= demoMiss
}

// typical is a value that people usually have in a test; ok is false for an
// input that the demonstration leaves out.
func (d *demoDraw) typical(r *demoRow, test *scoring.Test, in scoring.Input) (amount float64, ok bool) {
	age, _ := r.entry.Get(scoring.Age)
	rest, _ := r.entry.Get(scoring.RestingHR)
	most, _ := scoring.PredictedMaxHR(age.Amount)
	switch in {
	case scoring.ExerciseHR:
		share := map[string]float64{"walk-1-mile": 0.65, "walk-2-km": 0.7, "jog-1-mile": 0.72}[test.ID]
		switch {
		case share == 0 && r.steady:
			share = 0.78
		case share == 0:
			share = 0.97
		}
		return math.Round(rest.Amount + d.around(share, 0.03)*(most-rest.Amount)), true
	case scoring.Effort:
		if r.steady {
			return scoring.EffortSteady, true
		}
		return scoring.EffortAllOut, true
	case scoring.ShuttleStart:
		return scoring.ShuttleStart80, true
	case scoring.Distance:
		return 5000, true
	case scoring.BenchHeight:
		return 30, true
	case scoring.StepRate:
		return 22, true
	case scoring.StageTime:
		return 4, true
	case scoring.Power:
		mass, _ := r.entry.Get(scoring.BodyMass)
		return math.Round(mass.Amount*1.2/5) * 5, true
	case scoring.BeltSpeed:
		return 5.5, true
	case scoring.Grade:
		return 6, true
	case scoring.Gait:
		return scoring.GaitWalk, true
	}
	return 0, false
}
