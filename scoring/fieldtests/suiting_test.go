package fieldtests

import (
	"slices"
	"strings"
	"testing"

	"tenback/scoring"
)

// TestSuiting names the tests for people who got no number.
func TestSuiting(t *testing.T) {
	type values = map[scoring.Input]float64
	walked := values{scoring.Time: 15 * 60, scoring.ExerciseHR: 110}
	for _, c := range []struct {
		name   string
		sex    scoring.Sex
		age    float64
		person values
		test   *scoring.Test
		did    values
		done   []*scoring.Test
		want   string
	}{
		{name: "on a medicine, 45", sex: scoring.Female, age: 45, person: values{scoring.HeartRateDrug: scoring.Yes}, test: walk1Mile, did: walked, want: "walk-6-minute"},
		{name: "on a medicine, 66", sex: scoring.Female, age: 66, person: values{scoring.HeartRateDrug: scoring.Yes}, test: walk1Mile, did: walked, want: "walk-6-minute step-in-place-2-min"},
		{name: "on a medicine, sex unknown", age: 66, person: values{scoring.HeartRateDrug: scoring.Yes}, test: walk1Mile, did: walked, want: "walk-6-minute"},
		{name: "on a medicine, 15", sex: scoring.Female, age: 15, person: values{scoring.HeartRateDrug: scoring.Yes}, test: walk1Mile, did: walked},
		{name: "a boy of 9", sex: scoring.Male, age: 9, test: run12Minute, did: values{scoring.Distance: 1500}, done: []*scoring.Test{run12Minute}, want: "run-1-mile shuttle-20-m"},
		{name: "a boy of 9 whose class runs shuttles", sex: scoring.Male, age: 9, test: run12Minute, did: values{scoring.Distance: 1500}, done: []*scoring.Test{shuttle20M}, want: "shuttle-20-m run-1-mile"},
		{name: "age unknown", sex: scoring.Male, test: walk1Mile, did: walked},
		{name: "beyond the formula", sex: scoring.Male, age: 45, test: run12Minute, did: values{scoring.Distance: 800}, want: "walk-6-minute walk-1-mile"},
		{name: "a girl of 13, beyond the formula", sex: scoring.Female, age: 13, test: run12Minute, did: values{scoring.Distance: 850}, want: "run-1-mile shuttle-20-m"},
		{name: "symptoms", sex: scoring.Female, age: 40, person: values{scoring.Symptoms: scoring.Yes}, test: stepInPlace, did: values{scoring.StepsInPlace: 90}, want: "walk-6-minute walk-1-mile"},
		{name: "others step", sex: scoring.Female, age: 40, test: stepInPlace, did: values{scoring.StepsInPlace: 90}, done: []*scoring.Test{stepStage}, want: "step-stage walk-6-minute"},
	} {
		e := &scoring.Entry{Trials: []scoring.Trial{{Test: c.test}}}
		e.SetSex(c.sex, "")
		set := func(v *scoring.Values, all values) {
			for in, x := range all {
				v.Set(in, scoring.Q(x, in.Info().Unit), "A1")
			}
		}
		if c.age > 0 {
			e.Set(scoring.Age, scoring.Q(c.age, scoring.Years), "A1")
		}
		set(&e.Values, values{scoring.BodyMass: 60, scoring.RestingHR: 60})
		set(&e.Values, c.person)
		set(&e.Trials[0].Values, c.did)
		score := scoring.Assess(e)
		var got []string
		for _, test := range Suiting(&score, c.done) {
			got = append(got, test.ID)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
		if score.SeeClinicianFirst() && slices.ContainsFunc(Suiting(&score, All()), func(test *scoring.Test) bool { return test.Exertion == scoring.AllOut }) {
			t.Errorf("%s: an all-out test before a clinician agrees", c.name)
		}
	}
}
