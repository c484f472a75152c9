package fieldtests

import (
	"tenback/scoring"
	"tenback/scoring/reference"
)

var jog1Mile = &scoring.Test{
	ID: "jog-1-mile", Name: "1-mile steady jog",
	Names: []string{"1 mile jog", "one mile jog", "mile jog", "1 mile track jog"},
	Results: []scoring.Result{{Input: scoring.Time, Column: "1 mile jog", Headers: []string{"1 mile jog time", "mile jog time"},
		Step: scoring.Q(1, scoring.Seconds), Better: scoring.LowerIsBetter, Phrase: "the mile jogged in %s at the same heart rate"}},
	Also:     []scoring.Also{{Input: scoring.ExerciseHR, Column: "1 mile jog pulse", Headers: []string{"jog pulse", "jog heart rate", "1 mile jog heart rate"}}},
	Suits:    "People of 13 to 29 who jog; not an all-out test.",
	Exertion: scoring.Submaximal,
	Protocol: []string{
		"Flat measured mile (1609 m): on a 400 m track four laps and 9 m.",
		"Jog at one even, easy pace: not faster than 8 minutes (men) or 9 minutes (women), and with a heart rate of at most 180.",
		"Heart rate at the end by monitor or a ten-second count turned into beats a minute.",
	},
	Day: &scoring.Day{Say: "jog", WarmUp: "walk", AtOnce: 10, Minutes: 25, PerHelper: 3,
		Needs: "pulse-track", Course: 1609, Laps: 4, Pace: scoring.FinishTimes{From: 8 * 60, To: 14 * 60, Step: 30}, Count: scoring.Count10},
	Choice: "A study for each age, 13 to 17 and 18 to 29. Between 17 and 19 the one passes into the other (our own), so that a birthday changes little.",
	Equations: []*scoring.Equation{
		jog("jog1-hunt2000", "Hunt 2000, ages 13 to 16", jogHunt, reference.Ages{Min: 13, Max: 16}, "83 fit people of 13-17 (41 boys, 42 girls)",
			scoring.ErrorOfEstimate{SEE: 3.44, Note: "cross-checked (PRESS); 3.26 in the group itself"}, "0.88", "hunt2000"),
		jog("jog1-hunt-george", "Hunt 2000 passing into George 1993, ages 17 and 18", "(1 - w)*("+jogHunt+") + w*("+jogGeorge+")", reference.Ages{Min: 17, Max: 18},
			"the people of both studies", scoring.ErrorOfEstimate{SEE: 3.44, Note: "the larger one of the two studies"}, "0.84 to 0.88", "hunt2000",
			scoring.Step{Symbol: "w", Name: "part of the older form, from 0 at 17 to 1 at 19", Unit: scoring.NoUnit, Formula: "(age - 17)/2", Source: "common"}),
		jog("jog1-george1993", "George 1993", jogGeorge, reference.Ages{Min: 19, Max: 29}, "149 fit students of 18-29",
			scoring.ErrorOfEstimate{SEE: 3.1, Note: "cross-checked; 3.0 in the group itself"}, "0.84 cross-checked (0.87)", "george1993"),
	},
	Youth: true,
	Sources: []scoring.Source{
		{Key: "hunt2000", Citation: "Hunt BR, George JD, Vehrs PR, Fisher AG, Fellingham GW. Validity of a submaximal 1-mile track jog test in predicting VO2max in fit teenagers. Pediatr Exerc Sci 2000;12:80 (title shortened)."},
	},
}

const (
	jogHunt   = "92.91 + 6.50*sex - 0.141*kg - 1.562*T - 0.125*HR"
	jogGeorge = "100.5 + 8.344*sex - 0.1636*kg - 1.438*T - 0.1928*HR"
)

// jog is a form of the steady jog. The limits are those of the study of students.
func jog(id, name, formula string, ages reference.Ages, people string, see scoring.ErrorOfEstimate, r, source string, steps ...scoring.Step) *scoring.Equation {
	e := &scoring.Equation{
		ID: id, Name: name,
		Vars:    []scoring.Var{bind("sex", scoring.SexInput, scoring.MaleOne), bind("kg", scoring.BodyMass, scoring.Kilograms), bind("T", scoring.Time, scoring.Minutes), bind("HR", scoring.ExerciseHR, scoring.BeatsPerMinute)},
		Steps:   steps,
		Formula: formula,
		Ages:    ages, Population: people,
		Limits: []scoring.Limit{
			{Symbol: "T", Min: 8, Max: 20, Sex: scoring.Male, Refuse: true, Why: "the study rejects a mile under 8 minutes as too hard for this equation"},
			{Symbol: "T", Min: 9, Max: 20, Sex: scoring.Female, Refuse: true, Why: "the study rejects a mile under 9 minutes as too hard for this equation"},
			{Symbol: "HR", Min: 100, Max: 180, Refuse: true, Why: "the study rejects a heart rate above 180 as too hard for this equation"},
		},
		Error: see, Correlation: r, Source: source, Status: "seen in the abstract",
	}
	if len(steps) > 0 {
		e.Vars = append(e.Vars, bind("age", scoring.Age, scoring.Years))
		e.Status = "both parts seen in abstracts; that they pass into each other over two years is our own, so that a birthday changes little"
	}
	return e
}
