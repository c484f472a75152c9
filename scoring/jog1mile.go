package scoring

import "tenback/scoring/reference"

var _ = register(Test{
	ID: "jog-1-mile", Name: "1-mile steady jog", Rank: 25,
	Names: []string{"1 mile jog", "one mile jog", "mile jog", "1 mile track jog"},
	Results: []Result{{Input: Time, Column: "1 mile jog", Headers: []string{"1 mile jog time", "mile jog time"},
		Step: Q(1, Seconds), Better: LowerIsBetter, Phrase: "the mile jogged in %s at the same heart rate"}},
	Also:  []Also{{ExerciseHR, "1 mile jog pulse", []string{"jog pulse", "jog heart rate", "1 mile jog heart rate"}}},
	Suits: "People of 18 to 29 who jog; not an all-out test.",
	Protocol: []string{
		"Flat measured mile (1609 m): on a 400 m track four laps and 9 m.",
		"Jog at one even, easy pace: not faster than 8 minutes (men) or 9 minutes (women), and with a heart rate of at most 180.",
		"Heart rate at the end by monitor or a ten-second count turned into beats a minute.",
	},
	Equations: []*Equation{{
		ID: "jog1-george1993", Name: "George 1993",
		Vars:    []Var{{"sex", SexInput, MaleOne}, {"kg", BodyMass, Kilograms}, {"T", Time, Minutes}, {"HR", ExerciseHR, BeatsPerMinute}},
		Formula: "100.5 + 8.344*sex - 0.1636*kg - 1.438*T - 0.1928*HR",
		Ages:    reference.Ages{Min: 18, Max: 29}, Accepts: adults, Population: "149 fit students of 18-29",
		Limits: []Limit{
			{Symbol: "T", Min: 8, Max: 20, Sex: Male, Refuse: true, Why: "the study rejects a mile under 8 minutes as too hard for this equation"},
			{Symbol: "T", Min: 9, Max: 20, Sex: Female, Refuse: true, Why: "the study rejects a mile under 9 minutes as too hard for this equation"},
			{Symbol: "HR", Min: 100, Max: 180, Refuse: true, Why: "the study rejects a heart rate above 180 as too hard for this equation"},
		},
		Error: ErrorOfEstimate{SEE: 3.1, Note: "cross-checked; 3.0 in the group itself"}, Correlation: "0.84 cross-checked (0.87)",
		Source: "george1993", Status: "seen in the abstract",
	}},
})
