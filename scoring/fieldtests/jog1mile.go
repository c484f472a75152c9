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
	Suits:    "People of 18 to 29 who jog; not an all-out test.",
	Exertion: scoring.Submaximal,
	Protocol: []string{
		"Flat measured mile (1609 m): on a 400 m track four laps and 9 m.",
		"Jog at one even, easy pace: not faster than 8 minutes (men) or 9 minutes (women), and with a heart rate of at most 180.",
		"Heart rate at the end by monitor or a ten-second count turned into beats a minute.",
	},
	Day: &scoring.Day{Say: "jog", WarmUp: "walk", AtOnce: 10, Minutes: 25, PerHelper: 3,
		Needs: "pulse-track", Course: 1609, Laps: 4, Pace: scoring.FinishTimes{From: 8 * 60, To: 14 * 60, Step: 30}, Count: scoring.Count10},
	Equations: []*scoring.Equation{{
		ID: "jog1-george1993", Name: "George 1993",
		Vars:    []scoring.Var{bind("sex", scoring.SexInput, scoring.MaleOne), bind("kg", scoring.BodyMass, scoring.Kilograms), bind("T", scoring.Time, scoring.Minutes), bind("HR", scoring.ExerciseHR, scoring.BeatsPerMinute)},
		Formula: "100.5 + 8.344*sex - 0.1636*kg - 1.438*T - 0.1928*HR",
		Ages:    reference.Ages{Min: 18, Max: 29}, Accepts: scoring.Adults, Population: "149 fit students of 18-29",
		Limits: []scoring.Limit{
			{Symbol: "T", Min: 8, Max: 20, Sex: scoring.Male, Refuse: true, Why: "the study rejects a mile under 8 minutes as too hard for this equation"},
			{Symbol: "T", Min: 9, Max: 20, Sex: scoring.Female, Refuse: true, Why: "the study rejects a mile under 9 minutes as too hard for this equation"},
			{Symbol: "HR", Min: 100, Max: 180, Refuse: true, Why: "the study rejects a heart rate above 180 as too hard for this equation"},
		},
		Error: scoring.ErrorOfEstimate{SEE: 3.1, Note: "cross-checked; 3.0 in the group itself"}, Correlation: "0.84 cross-checked (0.87)",
		Source: "george1993", Status: "seen in the abstract",
	}},
}
